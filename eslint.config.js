import js from '@eslint/js'
import globals from 'globals'
import tseslint from 'typescript-eslint'

const pureRooms = ['src/domain', 'src/rules', 'src/schedule', 'src/conversation', 'src/chart', 'flows']

export default tseslint.config(
  { ignores: ['node_modules/', 'data/', 'tests/.artifacts/', '.mutation/'] },
  js.configs.recommended,
  ...tseslint.configs.recommended,
  {
    rules: {
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      'max-depth': ['error', 3],
      eqeqeq: ['error', 'always', { null: 'ignore' }],
    },
  },
  {
    // One event, the time and the ids come in; nothing here looks at the world.
    files: pureRooms.map((room) => `${room}/**/*.ts`),
    rules: {
      'no-console': 'error',
      'no-restricted-globals': ['error', 'process', 'setTimeout', 'setInterval', 'fetch', 'crypto'],
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: 'The instant comes in as a parameter.' },
        { object: 'Math', property: 'random', message: 'Ids and secrets come in with the event.' },
        { object: 'DateTime', property: 'now', message: 'The instant comes in as a parameter.' },
        { object: 'DateTime', property: 'local', message: 'It would read the machine’s zone.' },
      ],
    },
  },
  { files: ['src/channels/browser/page/**/*.js'], languageOptions: { globals: globals.browser } },
)
