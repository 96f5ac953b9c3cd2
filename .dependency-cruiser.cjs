/** Imports run downward only; see DEVELOPERS.md for the picture. */
const only = (layer, allowed) => ({
  name: `${layer}-imports-only-below`,
  severity: 'error',
  from: { path: `^src/${layer}/` },
  to: { path: '^src/', pathNot: `^src/(${[layer, ...allowed].join('|')})/` },
});

module.exports = {
  forbidden: [
    { name: 'no-circular', severity: 'error', from: {}, to: { circular: true } },
    only('calc', []),
    only('knowledge', ['calc']),
    only('engine', ['calc', 'knowledge']),
    only('dialogues', ['calc', 'knowledge', 'engine']),
    only('language', ['calc', 'knowledge', 'engine', 'dialogues']),
    only('store', ['calc', 'knowledge', 'engine', 'dialogues']),
    only('media', ['calc', 'knowledge', 'engine', 'dialogues']),
    only('channels', ['calc', 'knowledge', 'engine', 'dialogues']),
    {
      name: 'src-imports-no-tests',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^(tests|bench)/' },
    },
    {
      name: 'core-does-no-io',
      severity: 'error',
      from: { path: '^src/(calc|knowledge|engine|dialogues)/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'no-development-packages-in-src',
      severity: 'error',
      from: { path: '^src/' },
      to: { dependencyTypes: ['npm-dev'] },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsConfig: { fileName: 'tsconfig.json' },
    tsPreCompilationDeps: true,
  },
};
