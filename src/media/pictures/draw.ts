/** Pictures as they are sent: drawn as SVG, rendered to PNG. */
import { createRequire } from 'node:module';
import { Resvg } from '@resvg/resvg-js';
import type { Picture } from '../../dialogues/say.ts';
import { figuresSvg } from './figures.ts';
import { linkCodeSvg } from './link-code.ts';

/** Without a font of its own every text of a picture would be left out, silently. */
const require = createRequire(import.meta.url);
const FONTS = ['DejaVuSans', 'DejaVuSans-Bold'].map((name) =>
  require.resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`),
);

/** SVG as PNG. Texts are set in DejaVu Sans, whatever the machine has. */
export function pngOf(svg: string): Buffer {
  const font = { loadSystemFonts: false, fontFiles: FONTS, defaultFontFamily: 'DejaVu Sans' };
  return new Resvg(svg, { font }).render().asPng();
}

/** The picture as PNG. */
export function drawn(picture: Picture<string>): Buffer {
  return pngOf(
    picture.draw === 'figures' ? figuresSvg(picture) : linkCodeSvg(picture.address, picture.caption),
  );
}
