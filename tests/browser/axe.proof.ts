/** Every page on light and on dark paper; `npm test` asks the dark one of those only that have colours of their own. */
import './axe.test.ts';
