import { readdirSync } from 'node:fs'
import { basename, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { checkContent } from '#src/content/check-content.ts'
import { loadContent } from '#src/content/load-content.ts'
import type { Exercise } from '#src/domain/exercise.ts'
import { directionsOf, ladderIds, sideOf } from '#src/domain/direction.ts'
import { brandAs, type ExerciseId } from '#src/domain/identifier.ts'
import { copyContent, shippedContent } from '#tests/support/content-copy.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'

function filesIn(folder: string): readonly string[] {
  return readdirSync(join(shippedContent, folder)).map((file) => basename(file, '.yaml')).sort()
}

async function loadShipped() {
  return loadContent(copyContent(await makeTemporaryFolder()).root)
}

describe('the shipped content', () => {
  it('loads with every exercise, ladder and protocol that has a file', async () => {
    const content = await loadShipped()
    expect([...content.exercises.keys()].sort()).toEqual(filesIn('exercises'))
    expect([...content.ladders.keys()].sort()).toEqual(filesIn('ladders'))
    expect([...content.protocols.keys()].sort()).toEqual(filesIn('protocols'))
    expect([...content.languages.keys()]).toEqual(['en'])
  })

  it('loads in every language that has wording', () => {
    const { languages } = loadContent(shippedContent)
    expect([...languages.keys()]).toEqual(filesIn('wording'))
    expect([...languages.values()].map(({ words, lexicon }) => [words.language, lexicon.language])).toEqual(
      [...languages.keys()].map((language) => [language, language]),
    )
  })

  it('has nothing unused, empty or without words', async () => {
    expect(checkContent(await loadShipped(), ['session.greeting'])).toEqual([])
  })

  it('keeps an exercise as its file has it', async () => {
    const { exercises } = await loadShipped()
    const id = brandAs<ExerciseId>('seated-harness')
    const harness: Exercise = {
      id,
      ladder: 'extension',
      work: { kind: 'repetitions', load: 'harness', tempoSeconds: [3, 1, 2] },
      posture: { headTiltDegrees: 45 },
      restSeconds: 90,
      isLoaded: true,
      isTherapistOnly: false,
      needsApprovalToEnter: true,
      needsApprovalToLeave: false,
      equipment: ['harness', 'support'],
      ruledOutBy: { restrictions: ['no-load-through-head'], contraindications: [] },
      chosenFor: [],
      spacing: { hours: 40, sessionsPerWeek: 3 },
      isSilenceTold: true,
    }
    expect(exercises.get(id)).toEqual(harness)
  })

  it('keeps a protocol as its file has it', async () => {
    const { protocols } = await loadShipped()
    expect(protocols.get('novice')).toEqual({
      id: 'novice',
      pain: { comfortableUpTo: 2, amberUpTo: 5, endsSessionAbove: 7, urgentFrom: 8, urgentAboveUsualBy: 2, noProgressFromUsual: 5 },
      sets: { extension: 3, flexion: 3, 'lateral-flexion': 3, rotation: 3, 'deep-flexors': 2 },
      repetitions: { below: [4, 5, 6], range: [8, 10, 12], beyond: [14, 16] },
      progress: { isAutomatic: true },
      reserve: { forProgress: 2, onEntryUnmeasured: 4 },
      morning: { badAboveUsualBy: 2 },
      weekly: { noProgressAboveUsualBy: 2 },
      running: { amber: 3, red: 2, badMornings: 2, lowestDose: 2 },
      ease: { atLeast: 0.1 },
      loadStep: { largest: 0.1, farAbove: 0.25, approvalAbove: 0.5, beyondPlaces: 1, farBeyondPlaces: 2, firstPlateKg: 0.5 },
      working: Object.fromEntries(ladderIds.map((ladder) => [ladder, { warmUp: 0.2, target: 0.45 }])),
      maximum: { bandEntry: 0.15, bandLeave: 0.2, start: 0.2, ceiling: 0.45 },
      band: { stepsAboveEntry: 2 },
      harness: { entryUpToKg: 1, ceilingKg: 10 },
      loadedRung: { sessions: 6, days: 14 },
      session: { mostDirections: 4, mostSets: 12 },
      retest: { everyDays: 28 },
      absence: { withdrawAfterDays: 7, easeAfterDays: 14, reenterAfterDays: 28 },
      supervision: { noProgressAfterDays: 28, noSessionAfterDays: 42 },
      approval: { lapsesAfterDays: 14 },
      lock: { sessionsWithoutProgress: 2 },
      silence: { askAfterMinutes: 5, pauseAfterMinutes: 10 },
    })
  })

  it('asks every sign of a group under a group of the screen, and the rest never', async () => {
    const { triage } = await loadShipped()
    const groups = [...triage.groups, 'none']
    const signsOf = (group: string) => triage.signs.filter((sign) => sign.group === group).map((sign) => sign.id)
    expect(Object.fromEntries(groups.map((group) => [group, signsOf(group)]))).toEqual({
      trauma: ['dangerous-trauma', 'other-trauma'],
      limbs: ['face-or-half-body-numbness', 'sudden-weakness', 'head-dropping', 'arm-numbness', 'slow-weakness', 'clumsy-hands', 'electric-shock'],
      'dizziness-face': ['drop-attack', 'vision-loss-or-double', 'speech-or-swallowing', 'face-droop', 'spinning-lasting', 'light-headed'],
      headache: ['sudden-worst-headache', 'pain-unlike-any', 'pulsing-ear-noise'],
      'bladder-walking': ['saddle-bladder-bowel', 'unsteady-walking'],
      'illness-chest': ['chest-pain-or-breathless', 'fever-stiff-neck', 'weight-loss', 'night-pain', 'fever', 'feeling-ill'],
      wound: ['wound-change'],
      none: ['self-harm', 'being-hurt', 'severe-pain-now', 'two-illness-signs', 'something-else'],
    })
    expect(triage.groupsOnlyWith).toEqual({ wound: ['neck-surgery'] })
  })

  it('keeps the times of escalation, of the screen and of what goes on for long, and the gates', async () => {
    const { triage } = await loadShipped()
    expect(triage.screen).toEqual({ fullEveryDays: 28, fullAfterDaysOff: 14 })
    expect(triage.routine).toEqual({ sorenessPastDays: 7, noStepUpDays: 42 })
    expect(triage.illness).toEqual({
      signs: ['weight-loss', 'night-pain', 'fever', 'feeling-ill'],
      togetherWithinDays: 14,
      urgentAloneWith: ['past-cancer'],
    })
    expect(triage.escalation).toEqual({
      resendAfter: { emergency: 10, urgent: 120 },
      everyAfterwards: 30,
      contactWithin: { emergency: 60, urgent: 240 },
      askCalledAfter: [5, 15],
      unsureAskAgainAfter: 2,
      unsureAlertAfter: { emergency: 5, urgent: 30 },
    })
    expect(triage.gates).toEqual({
      minimumAge: 16,
      guardianBelowAge: 18,
      limitedFromAge: 65,
      refusedBloodPressure: { systolic: 180, diastolic: 110 },
      limitedBloodPressure: { systolic: 160, diastolic: 100 },
      refusing: [
        'fracture-within-6-months',
        'dropped-head-swallowing-breathing',
        'untreated-cord-signs',
        'unstable-heart-or-vessel-disease',
        'brain-aneurysm-or-recent-bleed',
        'acute-clot',
        'recent-eye-surgery',
        'uncontrolled-systemic-disease',
      ],
      refusingWithoutClearance: ['neck-surgery'],
      limiting: ['rheumatoid-arthritis', 'ankylosing-spondylitis', 'down-syndrome', 'connective-tissue-disease', 'osteoporosis', 'pregnancy'],
      noBridge: ['glaucoma', 'retinal-disease'],
      noted: ['past-cancer'],
    })
  })

  it('tells every client of every exercise when to stop for a sign of the nerves or the vessels', async () => {
    const { exercises, languages } = await loadShipped()
    const words = languages.get('en')?.words
    const stops = [...exercises.values()].map(({ id, ladder }) => {
      const [direction] = directionsOf(ladder)
      return words?.exercise(id, direction ? sideOf(direction) : null).stopWhen.join(' ') ?? ''
    })
    for (const sign of [/above 5 out of 10/, /dizzy/, /numb/, /weak/, /headache/, /speech/, /sight|flashes/]) {
      expect(stops.filter((stop) => !sign.test(stop))).toEqual([])
    }
  })

  it('says with harness and bridge who is near, what is checked, and how to get out', async () => {
    const { languages } = await loadShipped()
    const words = languages.get('en')?.words
    const texts = ['seated-harness', 'supported-bridge'].map((id) => {
      const exercise = words?.exercise(brandAs<ExerciseId>(id), null)
      return [...(exercise?.setUp ?? []), ...(exercise?.movement ?? [])].join(' ')
    })
    for (const need of [/somebody is within call/, /phone in reach/, /teeth/, /get out at any time/]) {
      expect(texts.filter((text) => !need.test(text))).toEqual([])
    }
  })
})
