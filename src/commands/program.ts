// The commands, as design section 5 has them.
import { Command, InvalidArgumentError, Option } from 'commander'
import { contentFolder, createApp, createProduct, createTelegram, openStore, systemClock } from '#src/app.ts'
import { dataDirOf, readConfig } from '#src/config.ts'
import { readPlan } from '#src/content/read-plan.ts'
import { mayTakeIn } from '#src/domain/signature.ts'
import { createLog } from '#src/log.ts'
import { check, printCheck } from './check.ts'
import { closeDesk, type CloseDeskOptions } from './close-desk.ts'
import { addCopies } from './copies/add-copies.ts'
import { describeSignature, howToSign } from './describe-signature.ts'
import { enrolPlan } from './enrol-plan.ts'
import { InputError } from './input-error.ts'
import { awaitings, read } from './read.ts'
import { readInputFile } from './read-input-file.ts'
import { clientKinds } from './rehearse/client-kinds.ts'
import { replacePlan, type Replaced } from './replace-plan.ts'
import { rehearse, type RehearseOptions } from './rehearse/rehearse.ts'
import { sign, type SignOptions } from './sign.ts'
import { start } from './start/start.ts'
import { status } from './status/status.ts'
import type { Surface } from './surface.ts'

/** Builds the commands; each sets the exit status by `done`. */
export function createProgram(surface: Surface, done: (status: number) => void): Command {
  const program = new Command('nuchal')
    .description('Runs the home neck-strengthening sessions that a clinician prescribes between visits.')
    .exitOverride()
    .configureOutput({ writeOut: (text) => surface.print(text.trimEnd()), writeErr: () => undefined })
  addStart(program, surface, done)
  addCheck(program, surface, done)
  addRehearse(program, surface)
  addRead(program, surface)
  addEnrol(program, surface)
  addSign(program, surface)
  addCloseDesk(program, surface)
  addStatus(program, surface, done)
  addCopies(program, surface, done)
  return program
}

function addStart(program: Command, surface: Surface, done: (status: number) => void): void {
  program
    .command('start')
    .description('run the configured channels; with nothing configured, a demo clinic in the browser')
    .action(async () => done(await start(surface)))
}

function addCheck(program: Command, { environment, print }: Surface, done: (status: number) => void): void {
  program
    .command('check')
    .description('check content and flows')
    .option('--json', 'print JSON')
    .action(({ json }: { json?: true }) => {
      const checked = check(contentFolder, dataDirOf(environment))
      print(json ? JSON.stringify(checked) : printCheck(checked))
      done(checked.problems.length === 0 ? 0 : 1)
    })
}

function addRehearse(program: Command, surface: Surface): void {
  program
    .command('rehearse')
    .description('play a plan with scripted answers, or with invented clients, on a virtual clock')
    .requiredOption('--plan <PLAN.yaml>', 'the plan')
    .option('--answers <FILE>', 'a script as .json, or one a line as .jsonl')
    .option('--virtual <N>', 'invent N clients instead', whole)
    .option('--seed <S>', 'for invented clients', whole, 1)
    .option('--weeks <W>', 'for invented clients', whole, 12)
    .addOption(new Option('--kind <KIND>', 'invent only clients of this kind').choices(clientKinds))
    .option('--plot <FILE>', 'draw the script, or the first invented client, as .svg or .png')
    .option('--json', 'print JSON (it prints nothing else)')
    .action((options: RehearseOptions) => rehearse(options, surface))
}

function addRead(program: Command, { print }: Surface): void {
  program
    .command('read')
    .description('show how a message is understood')
    // Free text may begin with a dash, which is then no option.
    .argument('<TEXT>')
    .addOption(new Option('--awaiting <KIND>', 'what was asked').choices(awaitings).makeOptionMandatory())
    .option('--locale <LANGUAGE>', 'whose words', 'en')
    .option('--json', 'print JSON (it prints nothing else)')
    .action((text: string, { awaiting, locale }: { awaiting: (typeof awaitings)[number]; locale: string }) =>
      print(JSON.stringify(read(text, awaiting, locale, createProduct('demo').content))),
    )
}

function addEnrol(program: Command, { environment, print }: Surface): void {
  program
    .command('enrol')
    .description('enrol a client from a plan file and print the invitation')
    .argument('<PLAN.yaml>')
    .option('--instead-of <CLIENT>', 'put the plan in the place of this client’s present one: their name or id')
    .option('--because <REASON>', 'why, for the record; needed with --instead-of')
    .option('--json', 'print JSON')
    .action(async (path: string, options: EnrolOptions) => enrol(path, options, environment, print))
}

function addSign(program: Command, surface: Surface): void {
  program
    .command('sign')
    .description('print the triage content, and sign it for this clinic')
    .option('--show', 'print it and sign nothing')
    .option('--name <NAME>', 'who signs: a licensed, registered clinician')
    .option('--registration <BODY AND NUMBER>', 'the professional body and the number there')
    .option('--i-have-reviewed-it <VERSION>', 'the version that was reviewed; it must be the one in force')
    .action((options: SignOptions) => sign(options, surface))
}

function addCloseDesk(program: Command, surface: Surface): void {
  program
    .command('close-desk')
    .description('close the desk of a therapist who has left and hand their clients over to a colleague')
    .argument('<THERAPIST>', 'whose desk: their name or id')
    .requiredOption('--hand-over-to <COLLEAGUE>', 'who takes over their clients: name or id')
    .requiredOption('--because <REASON>', 'why, for the record')
    .option('--json', 'print JSON')
    .action(async (therapist: string, options: CloseDeskOptions) => closeDesk(therapist, options, surface))
}

function addStatus(program: Command, surface: Surface, done: (status: number) => void): void {
  program
    .command('status')
    .description('show what is open, undelivered or overdue: counts and ids, beside a running start')
    .option('--json', 'print JSON')
    .action(async (options: { json?: true }) => done(await status(options, surface)))
}

interface EnrolOptions {
  readonly insteadOf?: string
  readonly because?: string
  readonly json?: true
}

async function enrol(path: string, options: EnrolOptions, environment: Surface['environment'], print: Surface['print']): Promise<void> {
  const replaced = replacedBy(options)
  const config = readConfig(environment)
  // Without a network's token it is the demo that `start` opens.
  const product = createProduct(config.telegram === null ? 'demo' : { dataDir: config.dataDir }, config.clinicLanguage)
  const { signature, triage } = product.content
  const plan = readPlan(readInputFile(path), path, product.content)
  // A plan put in the place of another concerns somebody who has been enrolled already.
  if (replaced === null && !mayTakeIn(signature)) {
    throw new InputError(`Nobody can be enrolled: ${describeSignature(signature, triage.version)} ${howToSign(triage.version)}`)
  }
  const store = openStore(config)
  await store.open()
  try {
    const log = createLog(config.logLevel)
    const { delivery } = createApp({ product, store, channels: null, clock: systemClock, log })
    await delivery.start()
    if (replaced !== null) {
      const { chart } = await replacePlan(plan, replaced, store, delivery).finally(() => delivery.stop())
      const said = `${plan.client.name} has another plan. It counts from the next session; the therapist and the client are told.`
      return print(options.json ? JSON.stringify({ client: plan.client.name, chart }) : said)
    }
    const { token, expiresAt, therapist } = await enrolPlan(plan, store, delivery, systemClock.now())
    await delivery.idle()
    await delivery.stop()
    const link = config.telegram ? await createTelegram(config.telegram, log).invitationLink(token) : `http://${config.host}:${config.port}/?join=${token}`
    const until = new Date(expiresAt).toISOString()
    if (options.json) return print(JSON.stringify({ client: plan.client.name, therapist, token, link, expiresAt: until }))
    print(`${plan.client.name} is enrolled. The invitation works once, until ${until}:`)
    print(link)
    if (signature.kind === 'signed') print(describeSignature(signature, triage.version))
    if (therapist === null) print('This clinic has no therapist yet: the invitation opens once one has claimed it with the code that start prints.')
    else if (therapist !== plan.contacts.therapist.name) print(`The plan names ${plan.contacts.therapist.name}; the clinic's only therapist, ${therapist}, gets the alerts.`)
  } finally {
    await store.close()
  }
}

function replacedBy({ insteadOf, because }: EnrolOptions): Replaced | null {
  if (insteadOf === undefined && because === undefined) return null
  if (insteadOf === undefined) throw new InputError('--because goes with --instead-of CLIENT. Name the client whose plan is replaced, or leave it out.')
  const reason = because?.trim() ?? ''
  if (reason === '') throw new InputError('--instead-of needs --because REASON: one sentence for the record.')
  return { client: insteadOf, reason }
}

function whole(text: string): number {
  if (!/^\d{1,7}$/.test(text)) throw new InvalidArgumentError('It must be a whole number.')
  return Number(text)
}
