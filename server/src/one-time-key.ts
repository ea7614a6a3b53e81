import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';

/** The key in the printed address. It opens one session and is dead after that. */
export interface OneTimeKey {
  readonly text: string;
  /** True for the right key, once. */
  spend(candidate: string): boolean;
}

const digest = (text: string) => createHash('sha256').update(text).digest();

export function makeOneTimeKey(): OneTimeKey {
  const text = randomBytes(24).toString('base64url');
  let live = true;
  return {
    text,
    spend(candidate) {
      const right = live && timingSafeEqual(digest(candidate), digest(text));
      if (right) live = false;
      return right;
    },
  };
}

/** A fresh session token, for the cookie alone; the store knows only its hash. */
export const makeToken = (): string => randomBytes(32).toString('base64url');

export const tokenHash = (token: string): string => digest(token).toString('hex');
