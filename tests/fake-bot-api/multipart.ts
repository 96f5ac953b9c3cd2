/** Reading the body of a call: JSON or multipart form data. */
import type { UploadedFile } from './limits.ts';

function part(block: string): [string, string | UploadedFile] | undefined {
  const end = block.indexOf('\r\n\r\n');
  const name = /name="([^"]+)"/i.exec(block)?.[1];
  if (end === -1 || name === undefined) return undefined;
  const content = block.slice(end + 4).replace(/\r\n$/, '');
  const file = /filename="?([^"\r\n;]+)/i.exec(block.slice(0, end))?.[1];
  const bytes = Buffer.from(content, 'latin1');
  return [name, file === undefined ? bytes.toString('utf8') : { name: file, bytes }];
}

/** A value of a form is JSON where it reads as such; a file stands where `attach://` names it. */
function resolved(value: string | UploadedFile, fields: ReadonlyMap<string, string | UploadedFile>): unknown {
  if (typeof value !== 'string') return value;
  if (value.startsWith('attach://')) return fields.get(value.slice('attach://'.length));
  try {
    return JSON.parse(value) as unknown;
  } catch {
    return value;
  }
}

/** The parameters in a body. */
export function parametersOf(body: Buffer, type: string): Record<string, unknown> {
  if (body.length === 0) return {};
  if (type.startsWith('application/json'))
    return JSON.parse(body.toString('utf8')) as Record<string, unknown>;
  const boundary = /boundary=([^;]+)/.exec(type)?.[1] ?? '';
  const parts = body.toString('latin1').split(`--${boundary}`).map(part);
  const fields = new Map(parts.filter((found) => found !== undefined));
  const attached = new Set(
    [...fields.values()].map((value) => (typeof value === 'string' ? value.replace('attach://', '') : '')),
  );
  const own = [...fields].filter(([name]) => !attached.has(name));
  return Object.fromEntries(own.map(([name, value]) => [name, resolved(value, fields)]));
}
