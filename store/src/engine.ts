/** Which SQL engine stands behind the port. */
export type Engine = 'embedded' | 'postgresql';
