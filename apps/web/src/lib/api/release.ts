/** Of which release these pages are; a test compares both with the contract, whose schemas stay out of the phone's download. */
export const PAGES_RELEASE = 2;
export const RELEASE_HEADER = 'middenry-release';
