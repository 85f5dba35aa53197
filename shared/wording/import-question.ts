import { CLOCK_QUESTIONS } from "./clock-question";
import { COLUMN_QUESTIONS } from "./column-question";
import { sayerOf, type Told } from "./told";

const QUESTIONS = { ...CLOCK_QUESTIONS, ...COLUMN_QUESTIONS } as const;

/** What is asked, with the values in it. */
export type QuestionInWords = Told<typeof QUESTIONS>;
/** As the engineer would put it, with what follows from each option. */
export const sayQuestion = sayerOf(QUESTIONS);
