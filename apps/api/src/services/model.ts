import { type Outlook, type OutlookSettings, outlookOf, type Scenario } from '@middenry/domain';

/** How an outlook is worked out: in this thread, in a worker, or by a stand-in of a test. */
export type Model = (scenario: Scenario, today: number, settings: OutlookSettings) => Outlook | Promise<Outlook>;

export const modelInThread: Model = (scenario, today, settings) => outlookOf(scenario, today, settings);

/** One member until the ensemble takes its place. */
export const MEMBERS = 1;
