/** A link as a square code that a camera reads. */
import qrcode from 'qrcode-generator';
import { escapedXml } from './svg.ts';

/** Width of a module, pixels: large enough for a phone held at arm's length from a sheet of paper. */
const MODULE = 10;
/** Quiet zone around the code, modules. ISO/IEC 18004 asks for four. */
const QUIET = 4;
const FONT_SIZE = 22;

/** The code of a text with a caption beneath, as SVG. Level Q stands a quarter of it being dirty or scratched. */
export function linkCodeSvg(address: string, caption: string): string {
  const code = qrcode(0, 'Q');
  code.addData(address);
  code.make();
  const count = code.getModuleCount();
  const width = (count + 2 * QUIET) * MODULE;
  const height = width + 2 * FONT_SIZE;
  const dark: string[] = [];
  for (let row = 0; row < count; row += 1)
    for (let column = 0; column < count; column += 1)
      if (code.isDark(row, column))
        dark.push(`M${(column + QUIET) * MODULE},${(row + QUIET) * MODULE}h${MODULE}v${MODULE}h-${MODULE}z`);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">`,
    `<rect width="100%" height="100%" fill="#fff"/>`,
    `<path d="${dark.join('')}" fill="#000"/>`,
    `<text x="50%" y="${width + FONT_SIZE / 2}" font-size="${FONT_SIZE}" text-anchor="middle">${escapedXml(caption)}</text>`,
    '</svg>',
  ].join('');
}
