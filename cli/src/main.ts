import { gapline } from './gapline.ts';

await gapline(process.argv.slice(2));
