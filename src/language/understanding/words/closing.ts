/** Words in which technicians of either language tell of a visit that is done. */
import type { SuspectId } from '../../../knowledge/ids.ts';

/** What such a line begins with, folded. */
export const CLOSED =
  /^\s*(?:visit\s+(?:is\s+)?)?(?:closed|close it|done|finished|cerrad[oa]|visita cerrada|cierro|terminad[oa]|hecho|lista?)\b\s*(?<mark>[:,.;-])?/u;

/** It was not cured. */
export const NOT_REPAIRED =
  /\b(?:not|could not|couldn't|cannot|can't|no) (?:be )?(?:repaired|repair|fixed|fix|cured|solved|done)\b|\bno (?:se )?(?:pudo )?(?:repar\w+|arregl\w+|qued[oa] \w+)|\bsin reparar\b|\b(?:needs|waiting for|order(?:ed)?) (?:a |the )?parts?\b|\b(?:falta|hay que pedir|pedid[oa]) (?:la |una |el |un )?(?:pieza|repuesto|refaccion)\b/u;

/** It was cured, without a word of a part. */
export const REPAIRED =
  /\b(?:repaired|fixed|cured|cleaned|cleared|tightened|reseated|emptied|freed|adjusted|reparad[oa]|arreglad[oa]|limpiad[oa]|limpie|destape|destapad[oa]|apretad[oa]|apret[ea]|vaciad[oa]|vacie|ajustad[oa]|ajuste)\b/u;

/** What a part is told with: "new ring", "replaced the lid", "junta nueva". */
export const NEW_PART_BEFORE =
  /\b(?:new|replaced|changed|fitted|put in|installed|nuev[oa]s?|cambiad[oa]s?|cambie|reemplace|reemplazad[oa]s?|puse|instale|instalad[oa]s?)\b/u;

/** The readings were taken with everything clean and working. */
export const CLEAN =
  /\b(?:clean(?:ed)? filter|filter (?:is )?clean(?:ed)?|clean readings?|readings? clean|all clean|now clean|clean now|clean|filtro limpio|lecturas? limpias?|(?:todo|ya) limpio|limpi[oa]s?)\b/u;

/** Further names of causes, beside those they have in the texts. */
export const CAUSE_NAMES: Readonly<Partial<Record<SuspectId, readonly string[]>>> = {
  'lid-oring-worn': [
    'lid o ring',
    'lid ring',
    'lid seal',
    'lid gasket',
    'junta de la tapa',
    'empaque de la tapa',
    'o ring de la tapa',
    'anillo de la tapa',
  ],
  'canister-seal-leak': [
    'canister o ring',
    'canister seal',
    'leaf canister lid ring',
    'junta del recogehojas',
  ],
  'cleaner-throat-blocked': [
    'blocked throat',
    'twig in the throat',
    'garganta tapada',
    'rama en la garganta',
  ],
  'hose-split': ['split hose', 'cracked hose', 'hole in the hose', 'manguera rota', 'manguera rajada'],
  'hose-blocked': ['clogged hose', 'manguera tapada'],
  'filter-dirty': [
    'dirty filter',
    'clogged filter',
    'filter needed cleaning',
    'filtro sucio',
    'filtro tapado',
  ],
  'filter-internals-torn': [
    'torn grid',
    'torn cartridge',
    'broken lateral',
    'rejilla rota',
    'cartucho roto',
    'lateral roto',
  ],
  'impeller-clogged': [
    'clogged impeller',
    'impeller blocked',
    'debris in the impeller',
    'impulsor tapado',
    'turbina tapada',
  ],
  'strainer-basket-full': ['full pump basket', 'pump basket full', 'canasta de la bomba llena'],
  'skimmer-basket-full': ['full skimmer basket', 'skimmer basket full', 'canasta del skimmer llena'],
  'shaft-seal-leak': ['shaft seal', 'pump seal', 'mechanical seal', 'sello mecanico', 'sello del eje'],
  'suction-line-leak': ['suction line leak', 'underground leak', 'fuga en la tuberia de succion'],
  'valve-stem-leak': ['valve stem', 'valve o ring', 'vastago de la valvula'],
  'suction-valve-moved': ['suction valve', 'valve moved', 'valvula de succion'],
  'return-valve-closed': ['return valve', 'valvula de retorno'],
  'drain-plug-leak': ['drain plug', 'tapon de drenaje'],
  'water-low': ['low water', 'water level low', 'nivel bajo', 'poca agua'],
  'gauge-stuck': ['stuck gauge', 'bad gauge', 'manometro trabado', 'manometro malo'],
  'something-else': ['something else', 'other cause', 'otra causa', 'otra cosa'],
};
