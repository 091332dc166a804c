/**
 * Figures and times as the pages print them. Thin spaces part thousands; times are those of the server's own clock.
 */
import { sideWords } from '../src/balance/present.ts';
import { dayOf } from '../src/plan/history.ts';
import { fixed, printFeet, printOther, printPounds, type Towards, type Units } from '../src/units.ts';
import { tellIn, unbroken } from './otherUnits.ts';

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** A number with so many decimals at most: `1 234.5`. */
export function figure(value: number, decimals = 0, towards: Towards = 'nearest'): string {
  const [whole = '', fraction = ''] = fixed(Math.abs(value), decimals, towards).split('.');
  const grouped = whole.length > 4 ? whole.replaceAll(/\B(?=(\d{3})+$)/g, '\u202f') : whole;
  const rest = fraction.replace(/0+$/, '');
  const text = rest === '' ? grouped : `${grouped}.${rest}`;
  return value < 0 && Number(text.replaceAll('\u202f', '')) !== 0 ? `−${text}` : text;
}

/** `1 214 kg`, with a decimal below a hundred and two below ten. */
export function kilograms(value: number): string {
  return `${figure(value, Math.abs(value) < 10 ? 2 : Math.abs(value) < 100 ? 1 : 0)} kg`;
}

/** `1 280 mm`. */
function millimetres(value: number): string {
  return `${figure(value, 1)} mm`;
}

/** A length in metres with so many decimals at most: `405.4 m`. */
function metres(value: number, decimals: number): string {
  return `${figure(value, decimals)} m`;
}

/** A centre in metres in the vessel's coordinates: `3.94 m forward, 0.007 m to port, 0.47 m up`. */
export function centre({ x, y, z }: { x: number; y: number; z: number }, print = metres): string {
  return `${print(x, 2)} forward, ${print(Math.abs(y), 3)} ${sideWords(y)}, ${print(z, 2)} up`;
}

/** Where a line of a page must not end: between a figure and its unit. */
const PARTED = /(?<=\d) (?=(?:k?g|[ckm]?m|k?N|s|h|min|lbf?|ft|in|%)(?![\p{L}\d]))/gu;

/** Every way to print, in the units of a job. What is stated and computed stays in millimetres and kilograms. */
export function wordsIn(units: Units): Words {
  const joined = Object.entries(printersIn(units)).map(([name, print]) => {
    if (typeof print === 'string') return [name, print];
    return [name, (...what: never[]) => (print as (...what: never[]) => string)(...what).replaceAll(PARTED, '\u00a0')];
  });
  return Object.fromEntries(joined);
}

/** The same, with spaces at which a line may end. */
function printersIn(units: Units): Words {
  const tell = (text: string): string => tellIn(units, text);
  const tellOn = (text: string): string => tell(text).replace(/^[A-Z](?=[a-z])/, (first) => first.toLowerCase());
  const place = (value: number): string => figure(value, 1);
  const bulk = (sizes: readonly number[]): string => `${sizes.map(place).join(' × ')} mm`;
  // Pounds are made of the finer figure.
  const roughly = (text: string): string =>
    units === 'metric'
      ? text.replaceAll(/(?<![\d.])\d+\.\d+ kg(?!\/|·)/g, (mass) => kilograms(Number.parseFloat(mass)))
      : tell(text);
  const times = { percent, duration, moment, day, many };
  const lengths = { millimetres, metres, place, bulk, centre: (at: Parameters<typeof centre>[0]) => centre(at) };
  const words = {
    units,
    figure,
    kilograms,
    limit: kilograms,
    ...lengths,
    ...times,
    tell,
    tellOn,
    tellRoughly: roughly,
  };
  if (units === 'metric') return words;
  // Feet are reckoned from the length itself: from metres already rounded an 8' bar came out as 7.87 ft.
  const inFeet = (value: number, decimals: number): string =>
    `${printOther(value, 'm', 'nearest', decimals)} (${metres(value, decimals)})`;
  return {
    ...words,
    kilograms: (value) => `${printPounds(value)} (${kilograms(value)})`,
    limit: (value) => `${printPounds(value, 'down')} (${kilograms(value)})`,
    millimetres: (value) => `${unbroken(printFeet(value, 32))} (${millimetres(value)})`,
    place: (value) => `${unbroken(printFeet(value, 32))} (${place(value)})`,
    bulk: (sizes) => `${sizes.map((mm) => unbroken(printFeet(mm, 16, 'up'))).join(' × ')} (${bulk(sizes)})`,
    metres: inFeet,
    centre: (at) => centre(at, inFeet),
  };
}

export interface Words {
  units: Units;
  figure: typeof figure;
  kilograms: typeof kilograms;
  /** A mass that must not be passed: not rounded up in pounds. */
  limit: typeof kilograms;
  millimetres: typeof millimetres;
  /** A length, mm, that stands without its unit. */
  place: (value: number) => string;
  /** Outer sizes, mm: not rounded down in inches, for it has to go through an opening. */
  bulk: (sizes: readonly number[]) => string;
  /** A length in metres, with so many decimals at most in metres. */
  metres: typeof metres;
  centre: (at: { x: number; y: number; z: number }) => string;
  percent: typeof percent;
  duration: typeof duration;
  moment: typeof moment;
  day: typeof day;
  many: typeof many;
  /** A sentence of the computing parts, its metric figures in the units of the job. */
  tell: (text: string) => string;
  /** The same, its masses with no more decimals than the pages print elsewhere. */
  tellRoughly: (text: string) => string;
  /** The same behind a colon: it goes on small. */
  tellOn: (text: string) => string;
}

/** `1.6 %` of a share. */
function percent(share: number): string {
  return `${figure(share * 100, 1)} %`;
}

/** Minutes of work as hours and minutes: `5 h 20 min`. */
export function duration(minutes: number): string {
  const whole = Math.round(minutes);
  const hours = Math.floor(whole / 60);
  return hours === 0 ? `${whole} min` : `${hours} h ${whole % 60} min`;
}

/** An ISO time as `24 Nov 2026, 14:05`. */
export function moment(iso: string): string {
  const at = new Date(iso);
  const time = `${String(at.getHours()).padStart(2, '0')}:${String(at.getMinutes()).padStart(2, '0')}`;
  return `${at.getDate()} ${MONTHS[at.getMonth()]} ${at.getFullYear()}, ${time}`;
}

/** What was written down where the server stood then, as it was there: `24 Nov 2026, 14:05`; a day alone as `24 Nov 2026`. */
function day(iso: string): string {
  const [year, month, date] = dayOf(iso).split('-').map(Number);
  const told = `${date} ${MONTHS[(month ?? 1) - 1]} ${year}`;
  return iso.length > 10 ? `${told}, ${iso.slice(11, 16)}` : told;
}

/** `1 bar`, `3 bars`. */
export function many(count: number, one: string, more = `${one}s`): string {
  return `${figure(count)} ${count === 1 ? one : more}`;
}
