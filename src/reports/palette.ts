// The inks of the pictures. Nothing is told by colour alone; contrasts (text 4.5 : 1, graphics 3 : 1, WCAG 2.2, 1.4.3 and
// 1.4.11) are kept on every ground.
export const ground = '#ffffff'
/** Every other rung. */
export const shade = '#f0f2f5'
export const grounds: readonly string[] = [ground, shade]

export const ink = '#1c1c1c'
export const quietInk = '#4d4d4d'
export const textInks: readonly string[] = [ink, quietInk]

/** The dose, which the picture is about. */
export const doseInk = '#123f73'
/** Weeks, edges of rungs, limits of pain. */
export const lineInk = '#7d7d7d'
/** The hatching of a lock. */
export const lockInk = '#6b6b6b'
export const graphicInks: readonly string[] = [ink, quietInk, doseInk, lineInk, lockInk]

export const fontFamily = 'DejaVu Sans, Verdana, sans-serif'
