import qrcode from 'qrcode-generator';
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';
import { drawn } from '../../src/media/pictures/draw.ts';
import { linkCodeSvg } from '../../src/media/pictures/link-code.ts';

const ADDRESS = 'https://t.me/invented_bot?start=j-AAAAAAAAAAAAAAAAAAAAAA';
const MODULE = 10;
// ISO/IEC 18004 asks for a quiet zone of four modules (from memory).
const QUIET = 4;

/** Whether a pixel of a rendered picture is dark. */
function darkAt(svg: string): { dark: (x: number, y: number) => boolean; width: number } {
  const image = new Resvg(svg, { font: { loadSystemFonts: false } }).render();
  const { pixels, width } = image;
  return { dark: (x, y) => (pixels[4 * (y * width + x)] ?? 255) < 128, width };
}

describe('the code of a link', () => {
  const svg = linkCodeSvg(ADDRESS, '');
  const { dark, width } = darkAt(svg);
  const code = qrcode(0, 'Q');
  code.addData(ADDRESS);
  code.make();
  const count = code.getModuleCount();
  const centre = (module: number): number => (module + QUIET) * MODULE + MODULE / 2;

  it('should show every module where the code has it', () => {
    expect(width).toBe((count + 2 * QUIET) * MODULE);
    for (let row = 0; row < count; row += 1)
      for (let column = 0; column < count; column += 1)
        expect([row, column, dark(centre(column), centre(row))]).toEqual([
          row,
          column,
          code.isDark(row, column),
        ]);
  });

  it('should leave the quiet zone free', () => {
    for (let at = 0; at < width; at += 1) {
      expect(dark(at, QUIET * MODULE - 1)).toBe(false);
      expect(dark(QUIET * MODULE - 1, at)).toBe(false);
    }
  });

  it('should be another one for another link', () => {
    expect(linkCodeSvg(`${ADDRESS.slice(0, -1)}B`, '')).not.toBe(svg);
  });

  it('should be a PNG in which the caption is really set, markup and all', () => {
    const plain = drawn({ draw: 'link-code', address: ADDRESS, caption: '' });
    const named = drawn({ draw: 'link-code', address: ADDRESS, caption: 'Jardín <Ñandú> & hijos' });
    // PNG specification, section 5.2: the signature of a PNG file.
    expect([...named.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
    expect(named.equals(plain)).toBe(false);
  });
});
