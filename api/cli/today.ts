/** Today by the clock of this machine, in UTC, `YYYY-MM-DD`. */
export const today = (): string => new Date().toISOString().slice(0, 10);
