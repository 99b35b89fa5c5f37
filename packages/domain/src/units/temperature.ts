export const ZERO_CELSIUS_K = 273.15;
const FAHRENHEIT_PER_CELSIUS = 1.8;
const FREEZING_F = 32;

export const kelvinFromC = (tempC: number): number => tempC + ZERO_CELSIUS_K;
export const fahrenheitFromC = (tempC: number): number => tempC * FAHRENHEIT_PER_CELSIUS + FREEZING_F;
export const celsiusFromF = (tempF: number): number => (tempF - FREEZING_F) / FAHRENHEIT_PER_CELSIUS;
