import { makeHandle } from "./handle";
import type { Answer, GetReady, Request } from "./messages";
import { makeRehearsal } from "./rehearsal";
import { stations } from "./stations";

const page = self as unknown as {
  onmessage: ((event: MessageEvent<Request | GetReady>) => void) | null;
  postMessage(answer: Answer, transfer?: Transferable[]): void;
};
const handle = makeHandle(stations);
const rehearsal = makeRehearsal(makeHandle(stations));
page.onmessage = ({ data }) => {
  if (data.ask === "get-ready") return rehearsal.begin();
  if (data.ask === "read") rehearsal.end();
  void handle(data, (answer, transfer) => page.postMessage(answer, transfer));
};
