/** The header in which pages say of which release they are. */
export const RELEASE_HEADER = 'middenry-release';
/**
 * Goes up by one with a release whose writes an older page or server might take in a wrong way.
 * Pages and server one apart understand each other; further apart, the server refuses with 426.
 */
export const RELEASE = 2;
