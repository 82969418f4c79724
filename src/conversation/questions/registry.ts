import type { Question, QuestionKind, Understood } from '../question.ts'
import type { Awaiting, Reading } from '../reading/read-message.ts'
import { control, pain, reserve } from './about-a-set.ts'
import { choice, choiceOrPain, openChoice, several, yesNo } from './choices.ts'
import { band, bloodPressure } from './clinical-values.ts'
import { date } from './dates.ts'
import { knownSign } from './known-sign.ts'
import { measuredForce } from './measured-force.ts'
import { activity, itemScores, scale } from './outcome-values.ts'
import { number, numbers, phone, text } from './plain-values.ts'
import type { AnswerContext, PlainButton, QuestionKindReader } from './question-kind.ts'
import { timeSpan, wallTime, weekdaysQuestion, zone } from './times.ts'

/** Every kind of question; a new one without a reader does not compile. */
const readers: { readonly [Kind in QuestionKind]: QuestionKindReader<Extract<Question, { kind: Kind }>> } = {
  pain,
  control,
  reserve,
  'yes-no': yesNo,
  choice,
  'choice-or-pain': choiceOrPain,
  'open-choice': openChoice,
  several,
  text,
  number,
  numbers,
  'wall-time': wallTime,
  'time-span': timeSpan,
  weekdays: weekdaysQuestion,
  zone,
  date,
  'blood-pressure': bloodPressure,
  band,
  'known-sign': knownSign,
  'measured-force': measuredForce,
  phone,
  scale,
  activity,
  'item-scores': itemScores,
}

function readerOf(question: Question): QuestionKindReader<Question> {
  return readers[question.kind] as unknown as QuestionKindReader<Question>
}

export function awaitingOf(question: Question): Awaiting {
  return readerOf(question).awaiting
}

export function readAnswer(question: Question, written: string, reading: Reading, context: AnswerContext): Understood {
  return readerOf(question).read(question, written, reading, context)
}

export function readPress(question: Question, value: string, context: AnswerContext): Understood {
  return readerOf(question).press(question, value, context)
}

export function buttonsOf(question: Question, context: AnswerContext): readonly (readonly PlainButton[])[] {
  return readerOf(question).buttons(question, context)
}
