/** Companies from the command line: `create "NAME"` and `invite "NAME"` print a link for an administrator; `list`. */
import { randomBytes, randomUUID } from 'node:crypto';
import { parseArgs } from 'node:util';
import { STAFF_LINK_MS } from '../dialogues/company/link.ts';
import { LOCALES } from '../dialogues/event.ts';
import { translate } from '../language/texts.ts';
import type { Store } from '../store/store.ts';
import { openStore } from '../store/store.ts';
import { companyCalled, databaseFile, printed, refuse } from './command-line.ts';
import { linksTo } from './links.ts';

/** A link for an administrator of a company, as the lines to print. */
function administratorLink(company: { id: string; name: string }, store: Store, now: number): string {
  const { PADSIDE_BOT_NAME: botName } = process.env;
  const name = botName === undefined || botName === '' ? undefined : botName.replace(/^@/, '');
  const { payload, address } = linksTo(() => name, randomBytes).fresh();
  const expiresAt = now + STAFF_LINK_MS;
  const invitation = {
    id: randomUUID(),
    payload,
    company: company.id,
    role: 'administrator',
    expiresAt,
  } as const;
  store.invitations.add(invitation, now);
  const key = name === undefined ? 'link-bare' : 'link';
  const until = new Date(expiresAt).toISOString().slice(0, 10);
  return translate('en', `app:company.${key}`, { company: company.name, address, until });
}

function create(name: string, locale: string, store: Store, now: number): string {
  const spoken = LOCALES.find((known) => known === locale) ?? refuse('company.no-locale', { locale });
  const trimmed = name.trim().slice(0, 60);
  if (trimmed === '') refuse('company.usage');
  if (store.companies.called(trimmed).length > 0) refuse('company.exists', { company: trimmed });
  const company = { id: randomUUID(), name: trimmed, locale: spoken };
  return store.together(() => {
    store.companies.create(company, now);
    return administratorLink(company, store, now);
  });
}

function invite(name: string, store: Store, now: number): string {
  return administratorLink(companyCalled(name, store), store, now);
}

function run(args: readonly string[]): string {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: { db: { type: 'string' }, locale: { type: 'string', default: 'en' } },
  });
  const [verb, name = ''] = positionals;
  if (!['create', 'invite', 'list'].includes(verb ?? '')) refuse('company.usage');
  const store = openStore(databaseFile(values.db));
  try {
    const now = Date.now();
    if (verb === 'create') return create(name, values.locale, store, now);
    if (verb === 'invite') return invite(name, store, now);
    return store.companies
      .all()
      .map((company) => company.name)
      .join('\n');
  } finally {
    store.close();
  }
}

await printed(
  () => `${run(process.argv.slice(2))}
`,
);
