import type { AlertLevel } from '#src/domain/triage.ts'

/** A sign that a source lists, the words of an ordinary person for it, and the least that it has to count as. */
export interface SignRow {
  readonly sign: string
  readonly words: string
  readonly least: AlertLevel
}

function rows(least: AlertLevel, table: Readonly<Record<string, string>>): readonly SignRow[] {
  return Object.entries(table).map(([sign, words]) => ({ sign, words, least }))
}

/** The five Ds, the A and the three Ns [found] https://unanswered.io/guide/5-ds-and-3-ns-red-flags-vertebrobasilar-insufficiency */
export const fiveDsThreeNs: readonly SignRow[] = [
  // Dizziness and nausea that settle within minutes are urgent, lasting ones an emergency (our choice).
  ...rows('urgent', { dizziness: 'I am dizzy', nausea: 'I feel sick', 'ataxia of gait': 'I stagger when I walk' }),
  ...rows('emergency', {
    'dizziness that lasts': 'I feel dizzy and it will not stop',
    diplopia: 'I am seeing double',
    'drop attack': 'My legs just gave way and I dropped to the floor',
    dysarthria: 'My speech is slurred',
    dysphagia: 'I have trouble swallowing',
    numbness: 'My face is numb',
    nystagmus: 'My eyes keep jumping from side to side',
  }),
]

/** The cord questions that a chat can ask [memory:high]; the level [memory:high], "any yes: stop, urgent review". */
export const cordQuestions: readonly SignRow[] = rows('urgent', {
  'clumsy hands: buttons': 'My hands are clumsy and I cannot do up my buttons',
  'clumsy hands: writing': 'My handwriting has got worse',
  'stiff legs': 'My legs feel stiff when I walk',
  'unsteady legs': 'I am unsteady when I walk',
  'numb hands on both sides': 'Both my hands are numb',
  'electric shock': 'When I bend my neck I get an electric shock down my spine',
  bladder: 'I cannot hold my pee since yesterday',
  bowel: 'I have trouble with my bowels since yesterday',
})

/** Arteries of the neck: Rushton 2020, the IFOMPT framework (JOSPT 53(1):7-22); the list [memory:medium]. */
export const arteries: readonly SignRow[] = [
  ...rows('urgent', {
    'headache unlike any other': 'I have a headache unlike any before',
    'neck pain unlike any other': 'My neck pain is unlike anything before',
  }),
  ...rows('emergency', {
    'droopy lid, small pupil': 'My eyelid droops and one pupil is smaller',
    'limb weakness': 'My left arm is suddenly weak',
    'face droop': 'My face is drooping on one side',
    'visual loss': 'I have lost the sight in one eye',
  }),
]

/** Serious disease: Finucane 2020, JOSPT 50(7):350-372; Blanpied 2017, JOSPT 47(7):A1-A83; the lists [memory:high]. */
export const seriousDisease: readonly SignRow[] = [
  ...rows('routine', {
    'cancer: weight loss': 'I am losing weight and I do not know why',
    'cancer: night pain': 'I have pain at night that nothing eases',
    'cancer: unwell': 'I feel generally unwell',
    'infection: fever': 'I have a fever',
    'infection: chills': 'I have chills',
  }),
  ...rows('urgent', {
    'cancer: two signs': 'I am losing weight and I have pain at night that nothing eases',
    'fracture: trauma': 'I had a fall',
    'giant-cell arteritis': 'I have a new headache and my jaw hurts when I chew',
  }),
  ...rows('emergency', {
    'cord: both legs weak': 'Both my legs are weak',
    'cord: both legs numb': 'Both my legs went numb',
    'cauda: saddle numbness': 'It is numb between my legs',
    'cauda: retention': 'I cannot pee',
    'upper neck: facial tingling': 'My face tingles',
  }),
]

/** Headache: ICHD-3, section 6 [found] http://beta.ichd-3.org/6-headache-attributed-to-cranial-or-cervical-vascular-disorder/ */
export const thunderclap: readonly SignRow[] = rows('emergency', {
  'at its worst at once': 'The worst headache of my life came on all at once',
  'peak in seconds': 'I have a sudden headache that was at its worst within seconds',
  'in a set': 'I got a terrible headache out of nowhere during the set',
})

/** Tiers: a synthesis that a clinician has to sign [convention]. */
export const tiers: readonly SignRow[] = [
  ...rows('emergency', {
    'speech trouble': 'My words come out wrong',
    collapse: 'I collapsed',
    'chest pain': 'I have chest pain',
    breathlessness: 'I am short of breath',
    'trauma with a high-risk factor': 'I fell from the roof',
    'new retention': 'I have not been able to pee since this morning',
    'fever with a stiff neck and confusion': 'I have a fever and a stiff neck and I am confused',
    'swallowing failure': 'I cannot swallow',
    'breathing failure': 'I cannot get enough air',
  }),
  ...rows('urgent', {
    'new arm numbness': 'I have new numbness in my hand',
    'spreading arm numbness': 'The numbness in my arm is spreading',
    'arm weakness that grows': 'My arm is slowly getting weaker',
    'trauma without a high-risk factor': 'I tripped and bumped my head',
    'wound change': 'My wound is red and oozing',
  }),
]

/** The same signs in other words, each beside its source. */
export const inOtherWords: readonly SignRow[] = [
  ...rows('urgent', {
    'worsening walking (Finucane 2020)': 'My walking has got worse',
    'neck pain unlike any other (Rushton 2020)': 'My neck pain is like nothing I have felt before',
    'fever with severe neck pain (tiers)': 'I have a fever and severe neck pain',
  }),
  ...rows('emergency', {
    'drop attacks (five Ds)': 'I keep falling without warning',
    'nystagmus (three Ns)': 'My eyes flicker from side to side',
    'sudden confusion (Rushton 2020)': 'I suddenly feel confused',
    'a crash that rolled the car over (Stiell 2001)': 'My car rolled over',
    'a crash at high speed (Stiell 2001)': 'My car was hit at high speed',
    'a fall down five stairs (Stiell 2001)': 'I fell down five stairs',
    'a load along the head (Stiell 2001)': 'A tin fell onto the top of my head',
    'a motorised recreational vehicle (Stiell 2001)': 'I rolled my quad bike',
  }),
]
