/** Each page of the screen, and a heading that stands there when it has its answer. */
export const pages = [
  { path: "overview", ready: "What needs attention" },
  { path: "gear", ready: "What is fitted, and where?" },
  { path: "parts?text=impeller", ready: "What parts are there, and what is known of each?" },
  { path: "lockers", ready: "Read with every list" },
  { path: "find?text=impeller", ready: "Read with every list" },
  { path: "commonality", ready: "Which models share which parts" },
  { path: "choosing", ready: "Which make should the next one be?" },
  { path: "choosing?for=new&kind=winch&operations=12", ready: "Read with every choice" },
  { path: "suppliers", ready: "What the best few cover" },
  { path: "crossing", ready: "The kit, and why" },
  {
    path: "crossing?vessel=Ysolvane&imagine=replace*Ysolvane: Primary winch, port aft*VG-52",
    ready: "Before and after: the kit",
  },
  { path: "voyage", ready: "How far the pieces must last" },
  { path: "order", ready: "Read with every order" },
  { path: "labels", ready: "Labels for lockers and bins" },
  { path: "import", ready: "Taken in so far" },
  { path: "settings", ready: "Bin labels" },
  { path: "patterns", ready: "Tables" },
] as const;
