import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { App } from "./app";
import { makeAnalysisClient, type WorkerPort } from "./worker/analysis-client";
import "./look/tokens.css";
import "./look/base.css";
import "./look/layout.css";
import "./parts/parts.css";
import "./look/print.css";

const startWorker = (): WorkerPort => new Worker(new URL("./worker/analysis.worker.ts", import.meta.url), { type: "module" });

const client = makeAnalysisClient(startWorker);

createRoot(document.getElementById("page")!).render(
  <StrictMode>
    <App client={client} />
  </StrictMode>,
);
