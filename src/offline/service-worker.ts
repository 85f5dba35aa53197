/** The part of a service worker's world that is used; the page's own library of types does not know it. */
type Extendable = Event & { waitUntil(work: Promise<unknown>): void };
type Fetching = Event & { readonly request: Request; respondWith(answer: Promise<Response>): void };
const worker = self as unknown as {
  readonly clients: { claim(): Promise<void> };
  addEventListener(type: "install" | "activate", listener: (event: Extendable) => void): void;
  addEventListener(type: "fetch", listener: (event: Fetching) => void): void;
};

/** Every file of the page and a mark of their content; the build writes it here. */
const LIST = "EVENHEAD_FILES" as unknown as { readonly version: string; readonly files: readonly string[] };
const OURS = "evenhead-";
const KEPT = OURS + LIST.version;

/** Keeps the whole page, so that it opens without a network or a server. */
worker.addEventListener("install", (event) => {
  event.waitUntil(caches.open(KEPT).then((cache) => cache.addAll([...LIST.files])));
});

worker.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((name) => name.startsWith(OURS) && name !== KEPT).map((name) => caches.delete(name))))
      .then(() => worker.clients.claim()),
  );
});

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || new URL(request.url).origin !== location.origin) return;
  event.respondWith(request.mode === "navigate" ? newest(request) : kept(request));
});

/** The page itself: as the server has it, else as it was kept. */
async function newest(request: Request): Promise<Response> {
  try {
    return await fetch(request);
  } catch {
    const page = await caches.match("./", { ignoreSearch: true });
    return page ?? Response.error();
  }
}

/** Its parts carry a mark of their content in their names: what is kept is what the server would send. */
async function kept(request: Request): Promise<Response> {
  const found = await caches.match(request);
  return found ?? fetch(request);
}
