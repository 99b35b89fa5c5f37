export const HOURS_PER_DAY = 24;
export const MINUTES_PER_HOUR = 60;
export const SECONDS_PER_HOUR = 3600;
export const SECONDS_PER_DAY = HOURS_PER_DAY * SECONDS_PER_HOUR;
export const DAYS_PER_WEEK = 7;
export const MONTHS_PER_YEAR = 12;
export const DAYS_PER_YEAR = 365.25;

export const hoursFromMinutes = (minutes: number): number => minutes / MINUTES_PER_HOUR;
