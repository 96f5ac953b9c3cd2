/** The rules that the trade's data keeps, run together: all breaches are reported at once. */
import type { Trade } from '../schema.ts';
import { asksSensible } from './asks-sensible.ts';
import type { Breach, Rule } from './breach.ts';
import { cautionsGuardWhatTheyBring } from './cautions-guard-what-they-bring.ts';
import { checksNeeded } from './checks-needed.ts';
import { complaintsShown } from './complaints-shown.ts';
import { conditionsKnown } from './conditions-known.ts';
import { dataFitsSchemas } from './data-fits-schemas.ts';
import { deeperCausesSound } from './deeper-causes-sound.ts';
import { distributionsSound } from './distributions-sound.ts';
import { electricsCautioned } from './electrics-cautioned.ts';
import { faultsHaveActor } from './faults-have-actor.ts';
import { faultsReachable } from './faults-reachable.ts';
import { faultsRevealed } from './faults-revealed.ts';
import { filterOpenedSafely } from './filter-opened-safely.ts';
import { hazardsCautioned } from './hazards-cautioned.ts';
import { idsComplete } from './ids-complete.ts';
import { needsBroughtSafely } from './needs-brought-safely.ts';
import { normalFirst } from './normal-first.ts';
import { restartCautioned } from './restart-cautioned.ts';
import { robotUnpluggedFirst } from './robot-unplugged-first.ts';
import { wetHandsGuarded } from './wet-hands-guarded.ts';

/** Every rule by its name. */
export const RULES = {
  asksSensible,
  cautionsGuardWhatTheyBring,
  checksNeeded,
  complaintsShown,
  conditionsKnown,
  dataFitsSchemas,
  deeperCausesSound,
  distributionsSound,
  electricsCautioned,
  faultsHaveActor,
  faultsReachable,
  faultsRevealed,
  filterOpenedSafely,
  hazardsCautioned,
  idsComplete,
  needsBroughtSafely,
  normalFirst,
  restartCautioned,
  robotUnpluggedFirst,
  wetHandsGuarded,
} as const satisfies Record<string, Rule>;

/** Every breach of every rule. Empty where the data is sound. */
export function breachesOf(trade: Trade): Breach[] {
  return Object.values(RULES).flatMap((rule) => rule(trade));
}
