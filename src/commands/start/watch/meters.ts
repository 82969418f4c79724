// What is counted of a running clinic, in the words of /metrics: numbers only, and labels from fixed lists.
import { Counter, Gauge, Histogram, Registry } from 'prom-client'

export type Meters = ReturnType<typeof createMeters>

/** Our choice: from well under to well over what one write to a disk or a database takes. */
const commitBuckets = [0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10]

export function createMeters() {
  const registry = new Registry()
  const registers = [registry]
  return {
    registry,
    inbound: new Counter({
      name: 'nuchal_inbound_total',
      help: 'What came in from people, by kind: taken (committed or parked) or failed (the network brings it again).',
      labelNames: ['network', 'kind', 'outcome'],
      registers,
    }),
    sends: new Counter({
      name: 'nuchal_sends_total',
      help: 'Tries to bring a message to its network, by what the network made of them.',
      labelNames: ['network', 'kind', 'outcome'],
      registers,
    }),
    commits: new Histogram({ name: 'nuchal_commit_duration_seconds', help: 'How long a durable commit took.', buckets: commitBuckets, registers }),
    failedCommits: new Counter({ name: 'nuchal_commit_failures_total', help: 'Commits that the store could not make.', registers }),
    parked: new Counter({ name: 'nuchal_parked_events_total', help: 'Events and updates dropped because of a mistake of the program.', registers }),
    openAlerts: new Gauge({ name: 'nuchal_open_alerts', help: 'Open alerts of the whole clinic.', labelNames: ['level', 'acknowledged'], registers }),
    undelivered: new Gauge({ name: 'nuchal_undelivered_messages', help: 'Messages this process has not got out yet.', labelNames: ['network', 'urgency'], registers }),
    undeliveredAge: new Gauge({
      name: 'nuchal_undelivered_oldest_age_seconds',
      help: 'Since when this process has tried the oldest of them; 0 where none waits.',
      labelNames: ['network', 'urgency'],
      registers,
    }),
    dueLag: new Gauge({ name: 'nuchal_due_lag_seconds', help: 'How long the most overdue timer of the whole clinic has been due; 0 where none is.', registers }),
    lastHeard: new Gauge({
      name: 'nuchal_network_last_heard_timestamp_seconds',
      help: 'When the network was last heard, in seconds since 1970; 0 before the first time.',
      labelNames: ['network'],
      registers,
    }),
    isStoreUp: new Gauge({ name: 'nuchal_store_up', help: '1 if the store answered just now, else 0, and what is read from it is missing or NaN.', registers }),
    startedAt: new Gauge({ name: 'nuchal_start_time_seconds', help: 'When this process started, in seconds since 1970.', registers }),
    residentMemory: new Gauge({ name: 'nuchal_resident_memory_bytes', help: 'Memory that this process holds.', registers }),
  }
}
