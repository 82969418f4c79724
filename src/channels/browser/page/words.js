/** What the page itself says; what is said in the chats comes over the socket. */
export const words = {
  connecting: 'Connecting…',
  connected: 'Connected',
  interrupted: 'Not connected. Trying again; what you send is kept until then.',
  nobody: 'Nobody yet',
  nothingYet: 'No messages yet.',
  /** @param {string} address */
  stranger: (address) => `New client (${address.replace(/^client-/, '')})`,
  /** @param {string} name */
  logOf: (name) => `Messages of ${name}`,
  /** @param {string} name */
  boxOf: (name) => `Write as ${name}`,
  /** @param {number} count */
  unread: (count) => `${count} new`,
  /** @param {string} name @param {number} count */
  unreadOf: (name, count) => `${name}: ${count} new`,
  alert: 'Alert',
  reminder: 'Reminder',
  byCoach: 'Nuchal: ',
  byPerson: 'You: ',
  pressed: 'Chosen: ',
  joined: 'Opened the invitation.',
  waiting: 'Being sent…',
  kept: 'Waiting for the connection',
  notTaken: 'Not delivered',
  /** @type {Record<string, string>} */
  refused: {
    malformed: 'Not sent: it cannot be read here.',
    full: 'Not sent: this demo already has as many people as it can hold.',
  },
  badInvitation: 'This invitation link is not complete. Ask for it again.',
  moving: 'Moving the clock…',
  moveFailed: 'The clock could not be moved there. Please try again.',
  moveUnclear: 'The connection broke off; look at the clock before you move it again.',
}
