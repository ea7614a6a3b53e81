/** What is known of a yes-or-no fact. Absent or `unknown` = not asked or not looked for; never read as `no`. */
export type Known = 'yes' | 'no' | 'unknown';
