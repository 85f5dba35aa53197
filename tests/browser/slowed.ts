import type { BrowserContext, Page } from "playwright-core";

/**
 * How many times slower than it is this machine should seem to the pages under test: EVENHEAD_SLOWED=5 shows what a test or the page
 * takes for granted that only a quick machine gives.
 */
const TIMES = Number(process.env.EVENHEAD_SLOWED ?? 1);

/** The longest that an answer of the worker is held back, for each time slower, ms. */
const HELD_PER_TIME = 250;

/** Where it is asked for, the page's own work takes longer, and what its worker answers comes late, in its order but by no regular time. */
export async function slowDown(context: BrowserContext): Promise<void> {
  if (!(TIMES > 1)) return;
  await context.addInitScript(holdBack, TIMES * HELD_PER_TIME);
  const slow = async (page: Page) => {
    const browser = await context.newCDPSession(page);
    await browser.send("Emulation.setCPUThrottlingRate", { rate: TIMES });
  };
  for (const page of context.pages()) await slow(page);
  // A page that is closed at once has no session any more.
  context.on("page", (page) => void slow(page).catch(() => {}));
}

/** Holds back all that the worker of this page answers, until it is let go: the page is begun anew for it. */
export async function holdAnswers(page: Page): Promise<{ hold(): Promise<void>; letGo(): Promise<void> }> {
  await page.addInitScript(holdBack, 0);
  await page.reload();
  const set = (held: boolean) => page.evaluate((now) => dispatchEvent(new CustomEvent("hold-answers", { detail: now })), held);
  return { hold: async () => void (await set(true)), letGo: async () => void (await set(false)) };
}

/** Runs in the page before its own scripts, once. @param longest ms */
function holdBack(longest: number): void {
  const own = Object.getOwnPropertyDescriptor(Worker.prototype, "onmessage");
  if (own?.set?.name === "setHeld") return;
  // Kept, since a test may stop the page's clock.
  const [wait, now] = [window.setTimeout.bind(window), performance.now.bind(performance)];
  let held = false;
  const waiting: (() => void)[] = [];
  addEventListener("hold-answers", (event) => {
    held = (event as CustomEvent<boolean>).detail;
    if (!held) for (const go of waiting.splice(0)) go();
  });
  const pass = (go: () => void) => (held ? waiting.push(go) : go());
  function setHeld(this: Worker, listen: (event: MessageEvent) => void) {
    let next = 0;
    const late: (() => void)[] = [];
    own?.set?.call(this, (event: MessageEvent) => {
      const go = () => listen.call(this, event);
      if (longest === 0) return pass(go);
      // Timers cut their times to whole milliseconds, and so may change places: each lets go the one that came first.
      late.push(go);
      next = Math.max(next, now() + Math.random() * longest);
      wait(() => pass(late.shift() ?? go), next - now());
    });
  }
  Object.defineProperty(Worker.prototype, "onmessage", { ...own, set: setHeld });
}
