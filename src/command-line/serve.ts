import { spawn } from "node:child_process";
import { createReadStream, existsSync } from "node:fs";
import { realpath, stat } from "node:fs/promises";
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import { extname, join, normalize, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { COMMAND_HELP } from "../../shared/wording/command-help";
import { sayServed, USAGE } from "../../shared/wording/usage";
import { PAGE_POLICY } from "../page-policy";
import { UsageError } from "./options";

const TYPES: ReadonlyMap<string, string> = new Map([
  [".html", "text/html; charset=utf-8"],
  [".js", "text/javascript; charset=utf-8"],
  [".css", "text/css; charset=utf-8"],
  [".json", "application/json; charset=utf-8"],
  [".webmanifest", "application/manifest+json"],
  [".csv", "text/csv; charset=utf-8"],
  [".svg", "image/svg+xml"],
  [".png", "image/png"],
]);

/** The page's own policy once more, and what only a header can say: that no other page frames it. */
export const PAGE_HEADERS: Readonly<Record<string, string>> = {
  "Content-Security-Policy": `${PAGE_POLICY}; frame-ancestors 'none'`,
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Embedder-Policy": "require-corp",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Cache-Control": "no-cache",
};

/** Serves a folder of built files on the loopback address. @returns the listening server and its address */
export async function servePage(folder: string, port: number): Promise<{ readonly server: Server; readonly address: string }> {
  const server = createServer((request, response) => void answer(folder, request, response));
  await new Promise<void>((resolve, reject) => server.once("error", reject).listen(port, "127.0.0.1", resolve));
  const bound = server.address();
  if (bound === null || typeof bound === "string") throw new Error("the server has no port");
  return { server, address: `http://127.0.0.1:${bound.port}/` };
}

async function answer(folder: string, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const refuse = (status: number) =>
    response.writeHead(status, { ...PAGE_HEADERS, "Content-Type": "text/plain; charset=utf-8" }).end(`${status}\n`);
  if (request.method !== "GET" && request.method !== "HEAD") return void refuse(405);
  const host = request.headers.host ?? "";
  if (!/^(?:127\.0\.0\.1|localhost)(?::\d+)?$/.test(host)) return void refuse(421); // a foreign name pointed at this machine
  const path = await realFile(folder, resolvePath(folder, request.url ?? "/"));
  const file = path === null ? null : await stat(path).catch(() => null);
  if (path === null || file === null || !file.isFile()) return void refuse(404);
  response.writeHead(200, {
    ...PAGE_HEADERS,
    "Content-Type": TYPES.get(extname(path)) ?? "application/octet-stream",
    "Content-Length": file.size,
  });
  if (request.method === "HEAD") response.end();
  else
    createReadStream(path)
      .on("error", () => response.destroy())
      .pipe(response);
}

/** The file a request asks for, or null where it would leave the folder. */
function resolvePath(folder: string, url: string): string | null {
  try {
    const asked = decodeURIComponent(new URL(url, "http://127.0.0.1").pathname);
    const path = normalize(join(folder, asked.endsWith("/") ? `${asked}index.html` : asked));
    return path.startsWith(folder + sep) && !path.includes("\0") ? path : null;
  } catch {
    return null;
  }
}

/** The file behind a path, links followed; null where there is none or a link leads out of the folder. */
async function realFile(folder: string, path: string | null): Promise<string | null> {
  if (path === null) return null;
  const [top, real] = await Promise.all([realpath(folder), realpath(path).catch(() => null)]);
  return real?.startsWith(top + sep) ? real : null;
}

/** Serves the dashboard until the process is ended. @throws UsageError */
export async function runServe(args: readonly string[]): Promise<number> {
  const options = readServeOptions(args);
  if (options.help) {
    console.log(COMMAND_HELP.serve);
    return 0;
  }
  const folder = builtPage();
  if (folder === null) throw new UsageError(USAGE.notBuilt);
  const { server, address } = await servePage(folder, options.port);
  const url = options.sample ? `${address}#sample` : address;
  console.log(sayServed(url));
  if (!options.quiet) openBrowser(url);
  await new Promise((resolve) => server.once("close", resolve));
  return 0;
}

/** The built page beside the built command line, whichever of its pieces this file became; null where there is none. */
function builtPage(): string | null {
  const near = ["../page", "../../page"].map((way) => fileURLToPath(new URL(way, import.meta.url)));
  return near.find((folder) => existsSync(join(folder, "index.html"))) ?? null;
}

function readServeOptions(args: readonly string[]) {
  try {
    const { values } = parseArgs({
      args: [...args],
      options: {
        port: { type: "string", default: "0" },
        sample: { type: "boolean", default: false },
        quiet: { type: "boolean", default: false },
        help: { type: "boolean", short: "h", default: false },
      },
    });
    const port = Number(values.port);
    if (!Number.isInteger(port) || port < 0 || port > 65535) throw new UsageError(USAGE.port(values.port));
    return { ...values, port };
  } catch (error) {
    throw error instanceof UsageError ? error : new UsageError(error instanceof Error ? error.message : String(error));
  }
}

/** Asks the system to open the address; where it cannot, the printed address is enough. */
function openBrowser(url: string): void {
  const [command, ...args] = { darwin: ["open", url], win32: ["cmd", "/c", "start", "", url] }[process.platform as string] ?? [
    "xdg-open",
    url,
  ];
  const opened = spawn(command, args, { stdio: "ignore", detached: true });
  opened.on("error", () => {});
  opened.unref();
}
