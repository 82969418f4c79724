const firstPauseMs = 300
const longestPauseMs = 5000
const lookEveryMs = 20_000
/** Two looks unanswered: the line is dead although nobody said so, e.g. after the machine slept. */
const silentAfterMs = 45_000

/**
 * A socket to the page's own server that comes back by itself. What was sent on a broken line may or may not have
 * arrived: whoever needs to be sure sends again under the same id (see outbox.js).
 *
 * @param {{ frame: (frame: any) => void, opened: () => void, closed: () => void }} listener
 */
export function createConnection(listener) {
  /** @type {WebSocket | null} */
  let socket = null
  let pauseMs = firstPauseMs
  let heardAt = 0
  let retry = 0

  function open() {
    clearTimeout(retry)
    const own = new WebSocket(`${location.protocol === 'https:' ? 'wss' : 'ws'}://${location.host}/socket`)
    socket = own
    heardAt = performance.now()
    own.onmessage = ({ data }) => {
      heardAt = performance.now()
      pauseMs = firstPauseMs
      listener.frame(JSON.parse(data))
    }
    own.onopen = () => listener.opened()
    own.onclose = () => lose(own)
  }

  /** @param {WebSocket} own */
  function lose(own) {
    if (socket !== own) return
    socket = null
    own.close()
    listener.closed()
    retry = setTimeout(open, pauseMs)
    pauseMs = Math.min(pauseMs * 2, longestPauseMs)
  }

  function look() {
    if (socket === null) open()
    else if (performance.now() - heardAt > silentAfterMs) lose(socket)
    else send({ kind: 'look' })
  }

  /** @param {object} frame */
  function send(frame) {
    if (socket?.readyState === WebSocket.OPEN) socket.send(JSON.stringify(frame))
  }

  setInterval(() => document.visibilityState === 'visible' && look(), lookEveryMs)
  document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && look())
  addEventListener('online', look)
  open()
  return { send }
}
