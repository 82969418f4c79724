// What the two variables of the webhook have to say to each other and to the rest of the environment.

/** Letters and the most of them: https://core.telegram.org/bots/api#setwebhook, secret_token. The least is our choice: shorter is guessed. */
export const secretPattern = /^[A-Za-z0-9_-]{16,256}$/

/** Paths that the process serves itself. */
export const ownPaths: readonly string[] = ['/healthz', '/metrics']

/** A line each: the name and the mend, never the value. */
export function findWebhookProblems(environment: Readonly<Record<string, string | undefined>>): readonly string[] {
  const { TELEGRAM_WEBHOOK_URL: url, TELEGRAM_WEBHOOK_SECRET: secret, TELEGRAM_BOT_TOKEN: token, TELEGRAM_API_ROOT: root } = environment
  if (!url && !secret) return []
  return [
    ...(url && !secret ? ['TELEGRAM_WEBHOOK_SECRET must be set where TELEGRAM_WEBHOOK_URL is, or anybody could write in the name of a client'] : []),
    ...(secret && !url ? ['TELEGRAM_WEBHOOK_URL must be set where TELEGRAM_WEBHOOK_SECRET is: remove the secret to use long polling'] : []),
    ...(token ? [] : ['TELEGRAM_BOT_TOKEN must be set where TELEGRAM_WEBHOOK_URL or TELEGRAM_WEBHOOK_SECRET is']),
    ...(url ? findUrlProblems(url, !root) : []),
  ]
}

function findUrlProblems(url: string, isPublic: boolean): readonly string[] {
  // An unreadable address is told of by the variable's own check.
  if (!URL.canParse(url)) return []
  const { protocol, pathname, hash } = new URL(url)
  return [
    ...(protocol === 'https:' || (protocol === 'http:' && !isPublic) ? [] : ['TELEGRAM_WEBHOOK_URL must begin with https:// (http:// only beside TELEGRAM_API_ROOT)']),
    ...(ownPaths.includes(pathname) ? [`TELEGRAM_WEBHOOK_URL must not end in ${pathname}, which the process serves itself`] : []),
    ...(hash === '' ? [] : ['TELEGRAM_WEBHOOK_URL must have no part after #']),
  ]
}
