import { signatureFileName } from '#src/content/triage-signature.ts'
import { demoClockFileName } from '../start/demo-clock.ts'

/**
 * What lies beside the documents and goes where the clinic goes: who signed the triage content, and how far a demo's clock
 * was moved on. Neither holds anything about a client. No other name is taken from a backup.
 */
export const clinicFileNames = [signatureFileName, demoClockFileName] as const
