import { createRoot } from "react-dom/client";

createRoot(document.getElementById("page")!).render(<main>Evenhead</main>);
