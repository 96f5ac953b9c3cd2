/** Figures as a picture that is read on a phone outdoors: black on white, large, nothing told by colour alone. */
import type { Bar, FigureSheet } from '../../dialogues/say.ts';
import { escapedXml, fittingSize, widthOf, wrapped } from './svg.ts';

const WIDTH = 1080;
const EDGE = 48;
const INNER = WIDTH - 2 * EDGE;
const TITLE = 46;
const HEADING = 36;
const LABEL = 30;
const NUMBER = 60;
const GAP = 28;
/** Height of a line of a text as a share of its size. */
const LINE = 1.3;
const BAR_HEIGHT = 34;
const INK = '#000';
const BAR_INK = '#0b3d91';

/** Pieces of a picture with their height. */
interface Block {
  svg: string[];
  height: number;
}

interface Place {
  x: number;
  y: number;
}

function line(text: string, size: number, { x, y }: Place, isBold = false): string {
  const weight = isBold ? ' font-weight="bold"' : '';
  return `<text x="${x}" y="${y}" font-size="${size}"${weight} fill="${INK}">${escapedXml(text)}</text>`;
}

/** A text in as many lines as it takes, from a place downward. */
function paragraph(text: string, size: number, { x, y }: Place, width: number, isBold = false): Block {
  const lines = wrapped(text, size, width);
  const svg = lines.map((one, index) => line(one, size, { x, y: y + (index + 0.8) * LINE * size }, isBold));
  return { svg, height: lines.length * LINE * size };
}

type Numbers = FigureSheet<string>['numbers'];

/** One large number with what it is beneath. */
function number({ label, value }: Numbers[number], place: Place, width: number): Block {
  const size = fittingSize(value, NUMBER, width);
  const below = paragraph(label, LABEL, { x: place.x, y: place.y + NUMBER * LINE }, width);
  const svg = [line(value, size, { x: place.x, y: place.y + NUMBER }, true), ...below.svg];
  return { svg, height: NUMBER * LINE + below.height };
}

/** The large numbers, two a row. */
function numbersBlock(numbers: Numbers, top: number): Block {
  const width = (INNER - GAP) / 2;
  const svg: string[] = [];
  let y = top;
  for (let index = 0; index < numbers.length; index += 2) {
    const row = numbers
      .slice(index, index + 2)
      .map((one, column) => number(one, { x: EDGE + column * (width + GAP), y }, width));
    svg.push(...row.flatMap((block) => block.svg));
    y += Math.max(...row.map(({ height }) => height)) + GAP;
  }
  return { svg, height: y - top };
}

function besideBar({ value, note }: Bar<string>): string {
  return note === undefined ? String(value) : `${value} · ${note}`;
}

/** A bar with its name above and its number beside it. */
function barBlock(bar: Bar<string>, longest: number, room: number, y: number): Block {
  const name = paragraph(bar.label, LABEL, { x: EDGE, y }, INNER);
  const top = y + name.height + 4;
  const length = longest === 0 ? 0 : (bar.value / longest) * room;
  const rectangle = `<rect x="${EDGE}" y="${top}" width="${length}" height="${BAR_HEIGHT}" fill="${BAR_INK}"/>`;
  const beside = line(besideBar(bar), LABEL, { x: EDGE + length + 12, y: top + BAR_HEIGHT - 6 });
  return { svg: [...name.svg, rectangle, beside], height: name.height + BAR_HEIGHT + GAP };
}

function chartBlock({ title, bars }: FigureSheet<string>['charts'][number], top: number): Block {
  const heading = paragraph(title, HEADING, { x: EDGE, y: top }, INNER, true);
  const longest = Math.max(...bars.map(({ value }) => value));
  const room = Math.max(80, INNER - 12 - Math.max(...bars.map((bar) => widthOf(besideBar(bar), LABEL))));
  const svg = [...heading.svg];
  let y = top + heading.height + GAP / 2;
  for (const bar of bars) {
    const block = barBlock(bar, longest, room, y);
    svg.push(...block.svg);
    y += block.height;
  }
  return { svg, height: y - top + GAP };
}

/** The sheet as SVG, as high as it has to be. */
export function figuresSvg({ title, subtitle, numbers, charts }: FigureSheet<string>): string {
  const svg: string[] = [];
  let y = EDGE;
  const add = (block: Block): void => {
    svg.push(...block.svg);
    y += block.height;
  };
  add(paragraph(title, TITLE, { x: EDGE, y }, INNER, true));
  add(paragraph(subtitle, LABEL, { x: EDGE, y }, INNER));
  y += GAP;
  add(numbersBlock(numbers, y));
  for (const chart of charts) add(chartBlock(chart, y));
  const height = Math.ceil(y + EDGE / 2);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${height}">`,
    '<rect width="100%" height="100%" fill="#fff"/>',
    ...svg,
    '</svg>',
  ].join('');
}
