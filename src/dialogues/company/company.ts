/** A company, its people and its pools, as the dialogues see them. */
import type { FaultId } from '../../knowledge/ids.ts';
import type { Locale } from '../event.ts';

export const COMPANY_ROLES = ['owner', 'technician', 'dispatcher', 'administrator'] as const;
/** What a person is to a company. An owner is its customer; the others are its staff. */
export type CompanyRole = (typeof COMPANY_ROLES)[number];

export interface Company {
  id: string;
  name: string;
  /** Language of its staff chat. */
  locale: Locale;
  phone: string;
  hours: string;
  /** What a visit is worth in an owner's time, minutes. */
  handOffMinutes: number;
  /** A brief that nobody accepts within this time reminds, minutes. */
  acceptWithinMinutes: number;
  /** IANA name. */
  timeZone: string;
  /** Conversation that the briefs go to. */
  staffChat?: string;
  /** A person not heard of for this long is removed. */
  retentionMonths: number;
}

/** What a person sees of the company that looks after a pool of theirs. */
export interface PoolCompany extends Pick<Company, 'id' | 'name' | 'phone' | 'hours' | 'handOffMinutes'> {
  /** Causes that its technicians confirmed at pools of the same class of equipment, the latest first. */
  confirmed?: readonly { fault: FaultId; at: number }[];
}

export interface Membership {
  company: Company;
  role: CompanyRole;
  since: number;
  /** What colleagues call the person; not there where nobody asked. */
  name?: string;
}

/** A pool in a list. */
export interface PoolLine {
  id: string;
  name: string;
  reference: string;
  address: string;
  /** Language its owner is written to in. */
  locale?: Locale;
  /** Its owner has come by a link. */
  isOwned: boolean;
}

/** What an invitation offers to the one who holds its link. */
export interface Offer {
  invitation: string;
  company: Company;
  role: CompanyRole;
  pool?: { id: string; name: string };
}

/** An invitation that can still be used. */
export interface OpenInvitation {
  id: string;
  role: CompanyRole;
  pool?: string;
  madeAt: number;
  expiresAt: number;
}

/** A person of a company. */
export interface Colleague {
  person: string;
  role: CompanyRole;
  name: string;
  since: number;
  /** Names of the pools of an owner. */
  pools: readonly string[];
}

/** A line of a file that cannot be taken, with what to do about it. */
export interface LineProblem {
  /** From 1; the line of the headings is 1. */
  line: number;
  column: string;
  code: ProblemCode;
  value: string;
  /** What the column takes instead. */
  allowed: string;
}
export const PROBLEM_CODES = [
  'not-csv',
  'not-utf8',
  'no-lines',
  'too-many',
  'column-missing',
  'column-unknown',
  'column-twice',
  'cells',
  'empty',
  'too-long',
  'twice',
  'not-one-of',
  'not-amount',
  'out-of-range',
  'not-reading',
] as const;
export type ProblemCode = (typeof PROBLEM_CODES)[number];

/** What an import of a file would do. Nothing is done where there are problems. */
export interface ImportPlan {
  lines: number;
  fresh: number;
  changed: number;
  same: number;
  /** Names of some pools that are new or change. */
  examples: readonly string[];
  /** The first of them. */
  problems: readonly LineProblem[];
  problemCount: number;
}

/** Months after the last contact that a person who belongs to no company is kept for. */
export const USUAL_MONTHS = 24;
