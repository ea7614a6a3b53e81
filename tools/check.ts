// `npm run check`: types, format and lint only; seconds instead of minutes.
import { runStep, STATIC_STEPS } from './steps.ts';

const failed = STATIC_STEPS.filter((step) => !runStep(step));
console.log(`${STATIC_STEPS.length - failed.length} passed, ${failed.length} failed`);
process.exit(failed.length === 0 ? 0 : 1);
