import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { App } from "./app";
import { makeAnalysisClient } from "./worker/analysis-client";
import { startWorker } from "./worker/start-worker";
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
