/** What is sent from a form with a file. */
import type { RequestHandler } from 'express';
import multer from 'multer';
import { Problem } from '../problem.ts';
import { BODY_LIMIT } from './request.ts';

const upload = multer({
  storage: multer.memoryStorage(),
  limits: { fileSize: BODY_LIMIT, fieldSize: BODY_LIMIT, fields: 10, files: 1, parts: 12 },
}).single('file');

/** Throws a `Problem` for a body that is misshapen or breaks off; what passes a limit comes as the reader's own error. */
export const readUpload: RequestHandler = (request, response, next) => {
  upload(request, response, (error: unknown) => next(isUnreadable(error) ? new Problem('not-readable') : error));
};

/** What the reader says of a body, and of one whose sender is gone, by bare errors: nothing but their words tells them. */
const UNREADABLE: ReadonlySet<string> = new Set([
  'Multipart: Boundary not found',
  'Malformed content type',
  'Malformed part header',
  'Unexpected end of form',
  'Unexpected end of file',
  'Request aborted',
  'Request closed',
  'Request error',
]);

function isUnreadable(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  const { code, message } = error as NodeJS.ErrnoException;
  return code === 'ECONNRESET' || UNREADABLE.has(message) || message.startsWith('Unsupported content type: multipart/');
}
