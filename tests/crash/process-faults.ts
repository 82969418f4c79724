/** Lines of the log that tell of a mistake of ours; a line that broke or a full disk is none. */
const mistakes: ReadonlySet<string> = new Set(['event-parked', 'step-failed', 'telegram-update-parked', 'channel-threw', 'send-failed', 'send-refused', 'nobody-reached', 'timer-stuck'])

export function findProcessFaults(log: string): readonly string[] {
  return log.split('\n').flatMap((line) => {
    if (line.trim() === '') return []
    try {
      const { msg } = JSON.parse(line) as { msg?: string }
      return msg !== undefined && mistakes.has(msg) ? [`logged: ${line}`] : []
    } catch {
      // A killed process may leave half a line; whole ones that are no record are somebody's last words.
      return /error|exception/i.test(line) ? [`printed: ${line.slice(0, 300)}`] : []
    }
  })
}
