import { readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { TOP } from "../house/source-files";
import { type OpenedPage, openPage } from "./open-page";

const TYPES: Readonly<Record<string, string>> = { html: "text/html", js: "text/javascript", css: "text/css", svg: "image/svg+xml" };
let opened: OpenedPage;
let server: Server;
let address: string;

/** The page as any server gives it that knows nothing of it: no headers but the kind of file. */
beforeAll(async () => {
  opened = await openPage();
  server = createServer((request, response) => {
    const path = new URL(request.url ?? "/", "http://localhost").pathname;
    const name = path === "/" ? "/index.html" : path;
    try {
      const body = readFileSync(join(TOP, "dist", "page", name));
      response.writeHead(200, { "Content-Type": TYPES[name.slice(name.lastIndexOf(".") + 1)] ?? "application/octet-stream" }).end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
});
afterAll(async () => {
  server.close();
  await opened.close();
});

test("put on a server that sends no policy, the page holds its own, and does its work under it", async () => {
  const { page: first } = await opened.fresh();
  const page = await first.context().newPage();
  const errors: string[] = [];
  page.on("pageerror", (error) => errors.push(error.message));
  page.on("console", (message) => message.type() === "error" && errors.push(message.text()));
  await page.goto(address);
  await page.getByRole("button", { name: "Open the sample visit" }).click();
  await page.getByRole("heading", { name: "Next visit" }).waitFor();
  expect(errors).toEqual([]);

  const broken = await page.evaluate(async () => {
    const seen: string[] = [];
    document.addEventListener("securitypolicyviolation", ({ effectiveDirective }) => seen.push(effectiveDirective));
    const tries: readonly (() => unknown)[] = [
      () => fetch("http://localhost:9/"),
      () => {
        document.body.innerHTML = "<p>no</p>";
      },
      () => document.head.appendChild(Object.assign(document.createElement("script"), { textContent: "window.hit = 1" })),
      // biome-ignore lint/security/noGlobalEval: it is tried whether it is stopped
      () => globalThis.eval("window.hit = 1"),
      () => {
        const button = document.createElement("button");
        button.setAttribute("onclick", "window.hit = 1");
        button.click();
      },
    ];
    let stopped = 0;
    // what the test itself asks the page to run is let by, until it has first come to rest
    await new Promise((resolve) => setTimeout(resolve, 10));
    for (const one of tries)
      try {
        await one();
      } catch {
        stopped++;
      }
    await new Promise((resolve) => setTimeout(resolve, 100));
    return { seen: [...new Set(seen)].sort(), stopped, hit: (window as unknown as { hit?: number }).hit ?? null };
  });
  expect(broken.hit).toBeNull();
  expect(broken.stopped).toBeGreaterThanOrEqual(4);
  expect(broken.seen).toEqual(expect.arrayContaining(["connect-src", "require-trusted-types-for"]));
});
