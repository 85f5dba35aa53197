import { mkdir, mkdtemp, rm, symlink, writeFile } from "node:fs/promises";
import { connect } from "node:net";
import { networkInterfaces, tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { servePage } from "../../../src/command-line/serve";

let folder: string;
let outside: string;
let served: Awaited<ReturnType<typeof servePage>>;
let port: number;

beforeAll(async () => {
  outside = await mkdtemp(join(tmpdir(), "evenhead-serve-"));
  folder = join(outside, "page");
  await mkdir(join(folder, "deep"), { recursive: true });
  await Promise.all([
    writeFile(join(outside, "secret.txt"), "secret"),
    mkdir(join(outside, "page-of-another")).then(() => writeFile(join(outside, "page-of-another", "secret.txt"), "secret")),
    writeFile(join(folder, "index.html"), "<!doctype html><title>page</title>"),
    writeFile(join(folder, "a b.csv"), "Time,P\n"),
    writeFile(join(folder, "deep", "x.bin"), "x"),
    symlink(join(outside, "secret.txt"), join(folder, "link.txt")),
    symlink(outside, join(folder, "up")),
    symlink(join(folder, "index.html"), join(folder, "inner.html")),
  ]);
  served = await servePage(folder, 0);
  port = Number(new URL(served.address).port);
});
afterAll(async () => {
  served.server.close();
  await rm(outside, { recursive: true });
});

/** A request as bytes, since a well-behaved client tidies paths away. */
const ask = (path: string, { method = "GET", host = `127.0.0.1:${port}` } = {}): Promise<{ status: number; head: string; body: string }> =>
  new Promise((resolve, reject) => {
    let text = "";
    connect(port, "127.0.0.1")
      .on("data", (data) => {
        text += data.toString("latin1");
      })
      .on("error", reject)
      .on("close", () => {
        const at = text.indexOf("\r\n\r\n");
        resolve({ status: Number(text.split(" ")[1]), head: text.slice(0, at), body: text.slice(at + 4) });
      })
      .write(`${method} ${path} HTTP/1.1\r\nHost: ${host}\r\nConnection: close\r\n\r\n`);
  });

describe("what is served", () => {
  test("the page, and files by their names, with their types", async () => {
    expect(await ask("/")).toMatchObject({ status: 200, body: "<!doctype html><title>page</title>" });
    expect((await ask("/")).head).toMatch(/content-type: text\/html; charset=utf-8/i);
    expect(await ask("/a%20b.csv?v=1#x")).toMatchObject({ status: 200, body: "Time,P\n" });
    expect((await ask("/deep/x.bin")).head).toMatch(/application\/octet-stream/i);
    expect(await ask("/inner.html")).toMatchObject({ status: 200 });
  });
  test("HEAD answers as GET without the body", async () => {
    const { status, head, body } = await ask("/", { method: "HEAD" });
    expect([status, body]).toEqual([200, ""]);
    expect(head).toMatch(/content-length: 34/i);
  });
  test.each(["POST", "PUT", "DELETE", "OPTIONS", "PATCH", "TRACE"])("%s is refused", async (method) => {
    expect((await ask("/", { method })).status).toBe(405);
  });
});

describe("what is not", () => {
  test.each([
    "/../secret.txt",
    "/deep/../../secret.txt",
    "/%2e%2e/secret.txt",
    "/%2e%2e%2fsecret.txt",
    "/..%5csecret.txt",
    "/%252e%252e/secret.txt",
    "/..;/secret.txt",
    "/../page-of-another/secret.txt",
    "/%2e%2e%2fpage-of-another%2fsecret.txt",
    "/link.txt",
    "/up/secret.txt",
    "/up/page/../secret.txt",
    "/index.html%00.txt",
    "/%00",
    "/%",
    "/%ff%fe",
    "/%c0%ae%c0%ae/secret.txt",
    "/deep",
    "/deep/",
    "/nothing",
    "http://elsewhere.example/../secret.txt",
  ])("%s", async (path) => {
    const { status, body } = await ask(path);
    expect([404, 400]).toContain(status);
    expect(body).not.toContain("secret");
  });
  test("a foreign name pointed at this machine", async () => {
    for (const host of ["evil.example", "127.0.0.1.evil.example", "localhost.evil.example", "127.0.0.1@evil.example", "[::1]"])
      expect((await ask("/", { host })).status, host).toBe(421);
    for (const host of ["localhost", `localhost:${port}`, "127.0.0.1"]) expect((await ask("/", { host })).status, host).toBe(200);
  });
  test("another address of this machine", async () => {
    const bound = served.server.address();
    expect(bound).toMatchObject({ address: "127.0.0.1" });
    const others = Object.values(networkInterfaces()).flatMap((list) =>
      (list ?? []).filter(({ internal, family }) => !internal && family === "IPv4"),
    );
    for (const { address } of others) {
      const reached = await new Promise((resolve) => {
        const socket = connect({ port, host: address, timeout: 2000 });
        socket
          .on("connect", () => resolve(true))
          .on("error", () => resolve(false))
          .on("timeout", () => resolve(false));
        socket.on("connect", () => socket.destroy());
      });
      expect(reached, address).toBe(false);
    }
  });
});

test("every answer, a refusal too, carries the page's rules", async () => {
  for (const { head } of [
    await ask("/"),
    await ask("/nothing"),
    await ask("/", { method: "POST" }),
    await ask("/", { host: "evil.example" }),
  ]) {
    const policy = /content-security-policy: (.*)/i.exec(head)?.[1] ?? "";
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("connect-src 'self'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).toContain("require-trusted-types-for 'script'");
    expect(policy).not.toMatch(/unsafe|\*|https?:/);
    for (const rule of [/x-content-type-options: nosniff/i, /referrer-policy: no-referrer/i, /cross-origin-opener-policy: same-origin/i])
      expect(head).toMatch(rule);
    expect(head).not.toMatch(/access-control-allow|x-powered-by|set-cookie/i);
  }
});

test("a port that is taken is said, not taken over", async () => {
  await expect(servePage(folder, port)).rejects.toMatchObject({ code: "EADDRINUSE" });
});
