import { describe, expect, test } from "vitest";
import { sourceFiles } from "./source-files";

/** What runs a text as code or takes it for markup: none of it is needed, so none of it is there. The page's policy would stop it besides. */
const IN =
  /\.(?:inner|outer)HTML\s*=|insertAdjacentHTML|document\.write|\beval\(|new Function\b|dangerouslySetInnerHTML|importScripts|srcdoc\s*=/;
/** What asks the network: the sample visit and the copy kept for use without a network, from the page's own folder only. */
const OUT = /\bfetch\(|XMLHttpRequest|\bWebSocket\b|sendBeacon|EventSource|\bnew Image\(|RTCPeerConnection/;
const MAY_ASK = ["src/views/bring-in/sample-visit.ts", "src/offline/service-worker.ts"];
const files = ["shared", "analysis", "src"].flatMap(sourceFiles);
const withWords = (words: RegExp) => files.filter(({ text }) => words.test(text)).map(({ path }) => path);

describe("nothing is let in or out", () => {
  test("there are files to look at, and the words are found where they stand", () => {
    expect(files.length).toBeGreaterThan(300);
    expect(IN.test("box.innerHTML = name")).toBe(true);
  });
  test("no text becomes code or markup", () => expect(withWords(IN)).toEqual([]));
  test("only the page's own files are asked for", () => expect(withWords(OUT).sort()).toEqual([...MAY_ASK].sort()));
  test("no address of another machine stands in the code, but names of forms and sources", () => {
    const foreign = files.flatMap(({ path, text }) =>
      [...text.matchAll(/["'`](?:https?:)?\/\/([a-z0-9.-]+)/gi)].map(([, host]) => `${path} ${host}`),
    );
    expect(foreign.filter((one) => !/ (?:www\.w3\.org|127\.0\.0\.1|localhost)$/.test(one))).toEqual([]);
  });
});
