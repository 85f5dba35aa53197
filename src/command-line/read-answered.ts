import type { ImportChoices } from "../../analysis/import/import-log";
import { ImportError } from "../../shared/problems/import-problem";
import type { Channel, LogRecord } from "../../shared/record/log-record";

type Answers = ImportChoices["answers"];

/**
 * A record with answers to its questions. An id is told from its answer by the questions that the files raise, since a heading and a range may both hold
 * "=". What they do not ask is taken only where it changes what is read (the order of a date that a clue had settled).
 * @param read reads the files, once for each step: an answer may raise the next question
 * @throws ImportError; "unasked" where an answer is to nothing that was asked and changes nothing
 */
export async function readAnswered(choices: ImportChoices, read: (choices: ImportChoices) => Promise<LogRecord>): Promise<LogRecord> {
  const given = Object.entries(choices.answers);
  if (given.length === 0) return read(choices);
  const texts = given.map(([id, answer]) => `${id}=${answer}`);
  const raised = new Set<string>();
  let answers: Answers = {};
  for (;;) {
    const record = await read({ ...choices, answers });
    for (const { id } of record.questions) raised.add(id);
    const next = Object.fromEntries(texts.flatMap((text) => split(text, raised)));
    if (sameAnswers(next, answers)) return readUnasked(choices, record, answers, raised, read);
    answers = next;
  }
}

const sameAnswers = (a: Answers, b: Answers) => JSON.stringify(a) === JSON.stringify(b);

/** The answer to the longest id that was raised. */
function split(text: string, raised: ReadonlySet<string>): readonly [string, string][] {
  const ids = [...raised].filter((id) => text.startsWith(`${id}=`)).sort((a, b) => b.length - a.length);
  return ids.length === 0 ? [] : [[ids[0], text.slice(ids[0].length + 1)]];
}

/** Each answer that was not asked for is tried: it must change something. */
async function readUnasked(
  choices: ImportChoices,
  asked: LogRecord,
  answers: Answers,
  raised: ReadonlySet<string>,
  read: (choices: ImportChoices) => Promise<LogRecord>,
): Promise<LogRecord> {
  let [record, taken] = [asked, answers];
  for (const [id, answer] of Object.entries(choices.answers).filter(([k, a]) => split(`${k}=${a}`, raised).length === 0)) {
    const changed = await read({ ...choices, answers: { ...taken, [id]: answer } });
    if (isSame(record, changed)) throw new ImportError({ id: "unasked", question: id, raised: [...raised] });
    [record, taken] = [changed, { ...taken, [id]: answer }];
  }
  return record;
}

/** Whether two readings of the same files agree in all that an answer can change. */
function isSame(a: LogRecord, b: LogRecord): boolean {
  const told = ({ clock, duration, columns, rows, channels, questions }: LogRecord) =>
    JSON.stringify([clock, duration, columns, rows, questions, channels.map(({ values, sampling, ...rest }) => [rest, sampling.kind])]);
  return told(a) === told(b) && a.channels.every((channel, k) => sameChannel(channel, b.channels[k]));
}

function sameChannel(a: Channel, b: Channel): boolean {
  return a.values.every((value, i) => Object.is(value, b.values[i])) && sameSampling(a.sampling, b.sampling);
}

function sameSampling(a: Channel["sampling"], b: Channel["sampling"]): boolean {
  if (a.kind === "even" || b.kind === "even") return JSON.stringify(a) === JSON.stringify(b);
  return a.times.length === b.times.length && a.times.every((time, i) => time === b.times[i]);
}
