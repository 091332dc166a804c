/** The one list of papers: what the command writes and what the web application offers. */
import type { Writable } from 'node:stream';
import type { Job } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { writeAccessCards } from './accessCards.ts';
import { writeBalanceSheet } from './balanceSheet.ts';
import { writeBreakingOut } from './breakingOut.ts';
import { writeBundleSheet } from './bundleSheet.ts';
import { writeHoldSheets } from './holdSheet.ts';
import { writeMakingList } from './makingList.ts';
import { PAPER_NAMES as W } from './names.ts';
import type { PaperOptions } from './page.ts';
import { writeRegister } from './register.ts';
import { writeSawSheet } from './sawSheet.ts';
import { writeStowage } from './stowage.ts';
import { writeTagList, writeTags } from './tags.ts';
import { writeTryFirst } from './tryFirst.ts';

export interface PaperKind {
  /** File name, also its name in addresses. */
  file: string;
  title: string;
  /** What it is for, in one sentence. */
  about: string;
  /** Writes the PDF to `out` and ends it. The plan must have passed the checker. */
  write(job: Job, plan: Plan, options: PaperOptions, out: Writable): Promise<void>;
}

/** In the order in which a day's work needs them. */
export const PAPERS: readonly PaperKind[] = [
  { file: 'saw-sheet.pdf', ...W.sawSheet, write: writeSawSheet },
  { file: 'try-first.pdf', ...W.tryFirst, write: writeTryFirst },
  { file: 'making-list.pdf', ...W.makingList, write: writeMakingList },
  { file: 'bundle-sheet.pdf', ...W.bundleSheet, write: writeBundleSheet },
  { file: 'tags.pdf', ...W.tags, write: writeTags },
  { file: 'tag-list.pdf', ...W.tagList, write: writeTagList },
  { file: 'stowage.pdf', ...W.stowage, write: writeStowage },
  { file: 'access-cards.pdf', ...W.accessCards, write: writeAccessCards },
  { file: 'breaking-out.pdf', ...W.breakingOut, write: writeBreakingOut },
  { file: 'hold-down.pdf', ...W.holdDown, write: writeHoldSheets },
  { file: 'balance.pdf', ...W.balance, write: writeBalanceSheet },
  { file: 'ballast-register.pdf', ...W.register, write: writeRegister },
];
