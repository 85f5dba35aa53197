import { makeHandle } from "./handle";
import type { Answer, Request } from "./messages";
import { stations } from "./stations";

const page = self as unknown as {
  onmessage: ((event: MessageEvent<Request>) => void) | null;
  postMessage(answer: Answer, transfer?: Transferable[]): void;
};
const handle = makeHandle(stations);
page.onmessage = (event) => void handle(event.data, (answer, transfer) => page.postMessage(answer, transfer));
