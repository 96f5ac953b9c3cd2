/** Costs that the planner starts from, in minutes. Invented defaults; a company sets its own. */
export interface Costs {
  /** What a visit is worth to each role: a truck for an owner, a return with other tools or another trade for a technician. */
  handOff: { owner: number; technician: number };
  /** What the visitor loses where the cause is not among the first three suspects. */
  blindVisit: number;
  pumpOffAndOn: number;
  lidOpenAndShut: number;
  hoseOutAndBack: number;
}

export const DEFAULT_COSTS: Costs = {
  handOff: { owner: 120, technician: 60 },
  blindVisit: 60,
  pumpOffAndOn: 2,
  lidOpenAndShut: 2,
  hoseOutAndBack: 4,
};
