import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import "./style/fonts.css";
import "./style/tokens.css";
import "./style/base.css";
import "./style/masthead.css";
import "./style/parts.css";
import "./style/fields.css";
import "./style/imagined.css";
import "./style/tables.css";
import "./style/pages.css";
import "./style/import.css";
import "./style/crossing.css";
import "./style/overview.css";
import "./style/records.css";
import "./style/charts.css";
import "./style/matrix.css";
import "./style/choosing.css";
import "./style/pictures.css";
import "./style/print.css";
import "./style/paper.css";
import { App } from "./app.tsx";
import { wearKeptScheme } from "./components/scheme.tsx";

wearKeptScheme();
// Only where the browser allows it: over plain http it does on the program's own machine alone.
if (import.meta.env.PROD && "serviceWorker" in navigator)
  window.addEventListener("load", () => {
    navigator.serviceWorker.register("./worker.js").catch(() => undefined);
  });
const place = document.getElementById("screen");
if (place !== null)
  createRoot(place).render(
    <StrictMode>
      <App />
    </StrictMode>,
  );
