import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { App } from "./app";
import { makeAnalysisClient } from "./worker/analysis-client";
import { keepPageOffline, startWorker } from "./worker/own-scripts";
import "./look/tokens.css";
import "./look/base.css";
import "./look/layout.css";
import "./parts/parts.css";
import "./look/print.css";

const client = makeAnalysisClient(startWorker);

createRoot(document.getElementById("page")!).render(
  <StrictMode>
    <App client={client} />
  </StrictMode>,
);

// After the page stands, so that keeping it never delays it; not while developing.
if (import.meta.env.PROD) addEventListener("load", () => void keepPageOffline());
