/** Days of a week as ISO 8601 numbers them: 1 is Monday. */
export const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7] as const;
export type Weekday = (typeof WEEKDAYS)[number];

/** Countries whose calendars do not begin with Monday (Unicode CLDR, supplemental weekData). */
const FIRST_IN = {
  5: 'MV'.split(' '),
  6: 'AF BH DJ DZ EG IQ IR JO KW LY OM QA SD SY'.split(' '),
  7: 'AG AS BD BR BS BT BW BZ CA CO DM DO ET GT GU HK HN ID IL IN IS JM JP KE KH KR LA MH MM MO MT MX MZ NI NP PA PE PH PK PR PT PY SA SG SV TH TT TW UM US VE VI WS YE ZA ZW'.split(
    ' ',
  ),
} as const;

/**
 * The day on which a week begins on calendars where a locale is from; the same in every browser, as not all can say it.
 *
 * @param locale such as en-US; without a country, the likeliest of the language
 */
export function firstWeekday(locale: string): Weekday {
  const country = new Intl.Locale(locale).maximize().region ?? '';
  const days = [5, 6, 7] as const;
  return days.find((day) => FIRST_IN[day].includes(country)) ?? 1;
}

/** The days of a week in the order of a locale's calendars. */
export function weekdaysOf(locale: string): Weekday[] {
  const first = firstWeekday(locale) - 1;
  return [...WEEKDAYS.slice(first), ...WEEKDAYS.slice(0, first)];
}
