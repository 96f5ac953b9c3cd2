/** A fault has one deeper cause at most, and one of the electrics has none but the supply. */
import type { DeeperCause, Fault, Trade } from '../schema.ts';
import type { Breach, Rule } from './breach.ts';

function pathOf(cause: DeeperCause, fault: string): string {
  return `deeperCauses.${cause.id}.of.${fault}`;
}

function namedTwice(causes: readonly DeeperCause[]): Breach[] {
  const seen = new Set<string>();
  return causes.flatMap((cause) =>
    cause.of.flatMap((fault) => {
      if (!seen.has(fault)) {
        seen.add(fault);
        return [];
      }
      const message = 'has a deeper cause already';
      return [{ path: pathOf(cause, fault), message, tip: 'Keep the likelier one of the two.' }];
    }),
  );
}

/** A fault that may take licensed work: whoever hears that it came back has to hear of the electrician. */
function isElectrical({ place, who }: Fault): boolean {
  return place === 'outlet' || who.includes('electrician');
}

function notOfSupply({ faults, deeperCauses }: Trade): Breach[] {
  return deeperCauses
    .filter(({ id }) => id !== 'supply-faulty')
    .flatMap((cause) =>
      cause.of
        .filter((id) => faults.some((fault) => fault.id === id && isElectrical(fault)))
        .map((id) => ({
          path: pathOf(cause, id),
          message: 'an electrical fault that does not lead to the supply',
          tip: 'List it under supply-faulty, which sends for an electrician.',
        })),
    );
}

export const deeperCausesSound: Rule = (trade) => [...namedTwice(trade.deeperCauses), ...notOfSupply(trade)];
