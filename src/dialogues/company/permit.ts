/** The right to do one thing within one company. Only `access.ts` gives it. */
import type { Company, CompanyRole } from './company.ts';

declare const given: unique symbol;

export interface Permit {
  readonly company: Company;
  readonly role: CompanyRole;
  readonly [given]: true;
}
