// A colleague is here no more: this desk's clients' charts hear of it, and whoever stood in for it is replaced.
import type { Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'
import type { ToldOf } from '../event.ts'
import { close } from './closed-desk.ts'
import { replaceStandIn } from './duty-actions.ts'

export function hearColleagueLeft(draft: Draft<Desk>, told: ToldOf<'colleague-left'>): void {
  const { id, clients } = draft.document
  if (told.desk === id) return close(draft, told.to)
  replaceStandIn(draft, told.desk, told.to)
  for (const { chart } of clients) draft.tell(chart, told)
}
