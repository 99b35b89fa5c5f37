/** Density of water, and the particle densities of a solid bed by the air-filled porosity formula. */
export const WATER_KG_PER_M3 = 1000;
/** One kilogram of water is one litre, near enough for a watering can. */
export const WATER_KG_PER_LITRE = 1;
/** One millimetre of rain on one square metre. */
export const WATER_KG_PER_M2_MM = 1;
