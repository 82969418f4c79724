import type { Command } from 'commander'
import type { Surface } from '../surface.ts'
import { backup, type BackupOptions } from './backup.ts'
import { migrate, type MigrateOptions } from './migrate.ts'
import { restore, type RestoreOptions } from './restore.ts'

/** The commands that copy a whole clinic. */
export function addCopies(program: Command, surface: Surface, done: (status: number) => void): void {
  program
    .command('backup')
    .description('copy the whole clinic, as of one instant, into a file; also beside a running start')
    .requiredOption('--to <FILE>', 'where to; it is encrypted if DATA_KEY is set')
    .option('--replace', 'put it in the place of a file that stands there')
    .option('--json', 'print JSON')
    .action(async (options: BackupOptions) => done(await backup(options, surface)))
  program
    .command('restore')
    .description('bring a clinic back from a backup, into an empty store')
    .requiredOption('--from <FILE>', 'the backup')
    .option('--check', 'read the backup to its end, say whether it is whole, and put nothing anywhere')
    .option('--json', 'print JSON')
    .action((options: RestoreOptions) => restore(options, surface))
  program
    .command('migrate')
    .description('move the clinic from DATA_DIR (or DATABASE_URL) to another store, which must be empty, or to another key; start must be stopped')
    .option('--to <STORE>', 'lowdb:FOLDER, or postgres: the database that TARGET_DATABASE_URL names; sealed with DATA_KEY_NEXT if that is set')
    .option('--rekey', 'change the key from DATA_KEY to DATA_KEY_NEXT; "none" there ends the encryption')
    .option('--json', 'print JSON')
    .action((options: MigrateOptions) => migrate(options, surface))
}
