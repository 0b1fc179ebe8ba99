/** What people call gear in lists that have no column for its model (normal form). */
export const gearWords: ReadonlySet<string> = new Set(
  [
    "gear|equipment|machine|machinery|engine|motor|appliance|device",
    "gerat|maschine|anlage|aggregat|equipement|appareil|materiel|moteur",
    "equipo|aparato|maquina|apparaat|toestel|apparecchio|macchina|impianto|motore|equipamento",
  ].flatMap((words) => words.split("|")),
);
