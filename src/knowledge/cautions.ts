import type { Caution } from './schema.ts';

export const CAUTIONS: readonly Caution[] = [
  { id: 'suction-entrapment', guards: ['pump'], brings: {} },
  { id: 'pump-off', guards: ['pump'], brings: { pump: 'off' } },
  { id: 'filter-pressure', guards: ['pump', 'pressure'], brings: { pressure: 'released' } },
  { id: 'power-lockout', guards: ['power'], brings: { pump: 'off', power: 'locked' } },
  { id: 'electric-water', guards: ['power'], brings: {} },
  { id: 'robot-unplug', guards: ['robot'], brings: { robot: 'unplugged' } },
  {
    id: 'restart-swimmers',
    guards: ['pump'],
    brings: { pump: 'running', lid: 'closed', pressure: 'up', power: 'on' },
  },
  { id: 'feeder-gas', guards: ['pump'], brings: {} },
  { id: 'never-mix', guards: [], brings: {} },
  { id: 'acid-soak', guards: [], brings: {} },
  { id: 'de-dust', guards: [], brings: {} },
  { id: 'backwash-drain', guards: [], brings: {} },
  { id: 'drowning', guards: [], brings: {} },
  { id: 'local-code', guards: [], brings: {} },
];
