import type { TableWords } from './types.ts';

export const ENTRIES: readonly TableWords[] = [
  {
    table: 'entry',
    row: 'Something that was done or seen at a bin; kind says which table holds the rest',
    columns: {
      kind: 'feeding, check, harvest, care, note or worms',
      happened_at: 'When it happened, an instant in UTC',
      local_date: 'Day at the site on which it happened',
      device_at: 'What the phone took for now when it sent this, an instant in UTC; empty: not said',
      received_at: 'When the server had it, an instant in UTC',
      skew_s: "How far the phone's clock was ahead [seconds]; empty: not said",
      undone_at: 'When it was taken back, an instant in UTC; empty: it stands',
      undone_by: 'Who took it back (table person)',
    },
  },
  {
    table: 'entry_revision',
    row: 'What an entry said before it was corrected or taken back',
    columns: {
      revision: 'Which writing of it this was, the first is 1',
      body: 'What it said, as JSON',
      replaced_at: 'When it was replaced, an instant in UTC',
      replaced_by: 'Who replaced it (table person)',
    },
  },
  {
    table: 'feeding',
    row: 'What went in beside the scraps when a bin was fed',
    columns: {
      bedding_g: 'Bedding put in with it [g]',
      bedding_material_id: 'What the bedding was, as in material_id elsewhere; empty: not said',
      water_g: 'Water put in with it [g]',
    },
  },
  {
    table: 'feeding_item',
    row: 'One kind of scraps of a feeding',
    columns: {
      preparation: 'whole, chopped, frozen or pureed',
      container_id: 'The container it was counted in (table container); empty: none',
      container_count: 'How many of that container; empty: none',
      tare_g: 'What it was weighed in, which grams are without [g]',
    },
  },
  {
    table: 'bin_check',
    row: 'What somebody found when looking at a bin',
    columns: {
      squeeze: 'What a squeezed handful did: crumbles, damp, one-two-drops, few-drops or trickle; empty: not tried',
      smell: 'earthy, sour, rotten or ammonia; empty: not said',
      bed_temp_c: 'Temperature of the bedding [degrees Celsius]; empty: not measured',
      worms: 'How many worms were seen: none, few, some or many; empty: not said',
      ph: 'Acidity [pH]; empty: not measured',
    },
  },
  {
    table: 'check_leftover',
    row: 'How much of the food was left in a zone at a check',
    columns: { left_over: 'none, little, half, most or all' },
  },
  { table: 'check_visitor', row: 'An animal other than worms that was seen at a check', columns: { visitor: 'Which animal' } },
  {
    table: 'harvest',
    row: 'Castings that were taken out',
    columns: {
      destination: 'Where they went: plots, beds, class, sale, given-away, stock, curing or other',
      destination_note: 'More about where, in words',
      site_id: 'The site in whose store they are, or from which they went (table site)',
      ready_on: 'The day from which castings that cure may be given out; empty: they do not cure',
      screened: '1 sieved, 0 not; empty: not said',
      volume_ml: 'What they filled [millilitres]; empty: not measured',
      squeeze: 'What a squeezed handful did: crumbles, damp, one-two-drops, few-drops or trickle; empty: not tried',
      dish_mg: 'The empty dish of a sample that was dried [mg]; empty: none was',
      wet_mg: 'The dish with the wet sample [mg]; empty: none was dried',
      dry_mg: 'The dish with the dry sample [mg]; empty: none was dried',
    },
  },
  {
    table: 'harvest_bucket',
    row: 'One bucket in which castings were weighed; a harvest is what all its buckets held',
    columns: {
      gross_g: 'What the scale showed, bucket and all [g]',
      tare_g: 'What the bucket weighs empty [g]',
      container_id: 'Which container it was (table container); empty: not said',
    },
  },
  {
    table: 'harvest_expected',
    row: 'What the model expected of castings in the bin on the evening before a harvest',
    columns: {
      low_g: 'Less than this had one chance in ten [g]',
      mid_g: 'As likely less as more [g]',
      high_g: 'More than this had one chance in ten [g]',
    },
  },
  {
    table: 'castings_move',
    row: 'Castings that came into the store of a site other than by a harvest, or went out of it',
    columns: {
      kind: 'given-out, brought-in or written-off',
      destination: 'To whom they were given: plots, beds, class, sale, given-away or other; empty: they were not given out',
      destination_note: 'More about to whom, in words',
      receiver: 'Who took them, where somebody wanted to be named; empty: nobody did, or it was erased',
      moved_at: 'When this was written down, an instant in UTC',
      undone_at: 'When it was taken back, an instant in UTC; empty: it stands',
      undone_by: 'Who took it back (table person)',
    },
  },
  {
    table: 'care',
    row: 'Something else that was done to a bin',
    columns: {
      action: 'What was done, such as loosened, watered or bedding',
      grams: 'How much of it [g]; empty: not said or of no meaning',
      exposure: 'Where the bin was moved to; empty: it was not',
      share: 'Share of the uneaten food that was taken out [fraction]; empty: none was',
    },
  },
  {
    table: 'worm_move',
    row: 'Worms that came or went',
    columns: {
      direction: 'added, given-away or split-off',
      grams: 'How many [g]; empty: not weighed',
      share: "Share of the bin's worms that left [fraction]; empty: not said",
      other_bin_id: 'The bin where they came from or went (table bin); empty: none of ours',
    },
  },
  {
    table: 'photo',
    row: 'A photo of a bin or of an animal in it; the picture is in photos/ under the name in file',
    columns: {
      entry_id: 'The entry it belongs to (table entry), which may be missing; empty: none',
      kind: 'bin or visitor',
      alt: 'What it shows, in words',
      taken_at: 'When it was taken, an instant in UTC',
      received_at: 'When the server had it, an instant in UTC',
      file: 'Name of the picture in photos/',
      bytes: 'Size of the picture [bytes]',
      width: 'Width [pixels]',
      height: 'Height [pixels]',
      sha256: 'SHA-256 of the picture, in hexadecimal',
      people: 'some: people can be seen in it; none: nobody can',
      people_at: 'Since when that is known, an instant in UTC; empty: nobody can be seen in it',
    },
  },
  {
    table: 'flag_note',
    row: 'What a coordinator said to a warning about a bin',
    columns: {
      signal: 'Which warning',
      kind: 'seen or aside',
      band: 'How bad it was: unknown, watch or act',
      reason: 'Why it was put aside, in words',
      until_on: 'Last day on which it stays aside; empty: none',
      made_on: 'Day at the site on which it was said',
    },
  },
  {
    table: 'intake_plan',
    row: 'A plan of how scraps on offer are shared among bins',
    columns: {
      plan: 'What was worked out, as JSON',
      accepted_at: 'When it was accepted, an instant in UTC; empty: not',
      shift_id: 'The shift that feeds it (table shift); empty: none',
    },
  },
  {
    table: 'intake_stream',
    row: 'Scraps on offer in a plan',
    columns: { plan_id: 'The plan (table intake_plan)', source: 'From where: a place, never a person' },
  },
  {
    table: 'shift_feeding',
    row: 'What an accepted plan puts on the card of a shift',
    columns: { part: 'scraps or bedding', plan_id: 'The plan (table intake_plan)' },
  },
  {
    table: 'season',
    row: 'A span of days with a name, by which reports count',
    columns: {
      site_id: 'The site (table site); empty: the whole programme',
      name: 'Name of the season',
      texts: 'Paragraphs by section that a coordinator wrote, as JSON',
    },
  },
  {
    table: 'published_season',
    row: 'A report that was published and keeps its numbers',
    columns: {
      site_id: 'The site (table site); empty: the whole programme',
      name: 'Name of the report',
      texts: 'Paragraphs by section that a coordinator wrote, as JSON',
      body: 'The report as it was then, as JSON',
      published_at: 'When it was published, an instant in UTC',
    },
  },
  {
    table: 'climate_factors',
    row: 'The factors by which climate gases are counted; none: they are left out',
    columns: {
      one: 'Always 1: it keeps a second set out',
      factors: 'Name, edition, region, source and figures as a coordinator confirmed them, as JSON [kg CO2e per 1000 kg]',
      confirmed_at: 'When they were confirmed, an instant in UTC',
    },
  },
];
