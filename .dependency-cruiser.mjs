// The arrows between the rooms (DEVELOPERS.md, "Architecture"). Each rule says what to do when it trips.
const room = (name) => `^src/${name}/`
const anyOf = (...rooms) => `^(${rooms.join('|')})`

/** A room and the rooms it may import; libraries are limited below. */
const mayImport = {
  domain: ['src/domain'],
  rules: ['src/rules', 'src/domain'],
  schedule: ['src/schedule', 'src/domain'],
  // Whether a plan can be carried out is for rules and schedule to say, and a plan is read in the content room.
  content: ['src/content', 'src/domain', 'src/rules', 'src/schedule'],
  conversation: ['src/conversation', 'src/domain', 'src/rules', 'src/content'],
  chart: ['src/chart', 'src/domain', 'src/rules', 'src/schedule', 'src/conversation', 'src/content', 'src/ports'],
  ports: ['src/ports', 'src/domain', 'src/chart'],
  stores: ['src/stores', 'src/ports', 'src/domain'],
  delivery: ['src/delivery', 'src/ports', 'src/domain'],
  channels: ['src/channels', 'src/ports', 'src/domain'],
  reports: ['src/reports', 'src/domain', 'src/rules', 'src/chart'],
}

const pure = anyOf('src/domain', 'src/rules', 'src/schedule', 'src/conversation', 'src/chart', 'flows')

export default {
  forbidden: [
    ...Object.entries(mayImport).map(([name, allowed]) => ({
      name: `${name}-imports`,
      comment: `src/${name} may import only ${allowed.join(', ')} and libraries. Move what is needed, or turn the arrow by a port.`,
      severity: 'error',
      from: { path: room(name) },
      to: { path: '^(src|flows|tests)/', pathNot: anyOf(...allowed.map((one) => `${one}/`)) },
    })),
    {
      name: 'flows-imports',
      comment: 'Flows may import domain, rules and the types of the conversation. What a flow does to a document is an action in src/chart.',
      severity: 'error',
      from: { path: '^flows/' },
      to: { path: '^(src|tests)/', pathNot: anyOf('src/domain/', 'src/rules/', 'src/conversation/') },
    },
    {
      name: 'types-only-from-content',
      comment: 'Conversation and chart take content as a value; only its types are imported.',
      severity: 'error',
      from: { path: anyOf('src/conversation/', 'src/chart/') },
      to: { path: room('content'), dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'ports-hold-interfaces',
      comment: 'Chart and conversation know the ports by their types only.',
      severity: 'error',
      from: { path: room('chart') },
      to: { path: room('ports'), dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'channels-and-stores-keep-apart',
      comment: 'A channel or store never imports another one. What they share belongs to a port.',
      severity: 'error',
      from: { path: '^src/(channels|stores)/([^/]+)/' },
      to: { path: '^src/(channels|stores)/[^/]+/', pathNot: '^src/$1/$2/' },
    },
    {
      name: 'pure-rooms-touch-nothing',
      comment: 'Pure rooms read no clock, file, network or environment. Hand the value in. (A digest is arithmetic: src/chart/digest.ts.)',
      severity: 'error',
      from: { path: pure, pathNot: '^src/chart/digest\\.ts$' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'nothing-imports-tests',
      comment: 'Tests look at the product, never the other way round.',
      severity: 'error',
      from: { pathNot: '^tests/' },
      to: { path: '^tests/' },
    },
    {
      name: 'nock-in-one-file',
      comment: 'Only tests/support/telegram-api.ts imports nock: it fails on missing and on unused answers.',
      severity: 'error',
      from: { pathNot: '^tests/support/telegram-api\\.ts$' },
      to: { path: 'node_modules/nock/' },
    },
    { name: 'no-circle', comment: 'Two files that need each other are one idea or three. Move what both need.', severity: 'error', from: {}, to: { circular: true } },
    { name: 'nothing-missing', comment: 'The import leads nowhere. Mend the path.', severity: 'error', from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'types', 'node', 'default'] },
  },
}
