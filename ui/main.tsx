import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import "./style/fonts.css";
import "./style/tokens.css";
import "./style/base.css";
import "./style/masthead.css";
import "./style/parts.css";
import "./style/fields.css";
import "./style/tables.css";
import "./style/pages.css";
import "./style/records.css";
import "./style/charts.css";
import "./style/print.css";
import { App } from "./app.tsx";
import { wearKeptScheme } from "./components/scheme.tsx";

wearKeptScheme();
const place = document.getElementById("screen");
if (place !== null)
  createRoot(place).render(
    <StrictMode>
      <App />
    </StrictMode>,
  );
