import type { TableWords } from './types.ts';

export const PLACES: readonly TableWords[] = [
  {
    table: 'programme',
    row: 'The programme itself; there is one row',
    columns: {
      one: 'Always 1: it keeps a second programme out',
      name: 'Name of the programme',
      is_demo: '1: an invented demonstration; 0: a programme of somebody',
      units: 'Units that pages show: metric or us; stored values are always metric',
      locale: 'How days and numbers are written, a BCP 47 tag',
      photos_of_people: '1: photos of people are shown, of whom each consents; 0: none are',
    },
  },
  {
    table: 'site',
    row: 'A place where bins stand',
    columns: {
      name: 'Name of the site',
      min_c: 'Usual night temperatures of the twelve months as a JSON list, January first [degrees Celsius]',
      max_c: 'Usual day temperatures of the twelve months as a JSON list, January first [degrees Celsius]',
    },
  },
  {
    table: 'site_opening',
    row: 'When people can be at a site on a day of the week',
    columns: {},
  },
  { table: 'site_closed', row: 'Days on which a site is closed', columns: { label: 'Why, in words' } },
  {
    table: 'site_duty_minutes',
    row: 'How long a duty takes at a site, where it is not the usual time',
    columns: { kind: 'The duty, such as feed or check', minutes: 'Length [minutes]' },
  },
  { table: 'air_reading', row: 'Air temperature of a day at a site', columns: { mean_c: 'Mean of the day [degrees Celsius]' } },
  {
    table: 'bin',
    row: 'A worm bin',
    columns: {
      code: 'Two to four letters or digits that stand on the bin',
      name: 'Name of the bin',
      kind: 'How it is built: tote, tray-stack, flow-through, fabric, bed, pit or vessel',
      area_m2: 'Surface [square metres]',
      depth_m: 'Depth [metres]',
      zones: 'Into how many zones it is divided',
      open_base: '1: it stands open on the ground; 0: it has a floor',
      exposure: 'Where it stands: indoors, shade, part-sun or full-sun',
      started_on: 'Day on which it was started',
      start_worms_g: 'Worms at the start [g]',
      start_bed_water_g: 'Water in the first bedding [g]',
      check_interval_days: 'How often it should be looked at [days]',
      place_order: 'Where it comes on a round of the site',
      state: 'active, resting or retired',
    },
  },
  { table: 'bin_start_bed', row: 'Bedding with which a bin was started', columns: {} },
  {
    table: 'material',
    row: "A material of the programme's own; those of the catalogue are not listed",
    columns: {
      name: 'Name of the material',
      kind: 'food, bedding or amendment',
      moisture_frac_wb: 'Water per mass as it comes [fraction, wet basis]',
      carbon_frac_db: 'Carbon per dry mass [fraction, dry basis]',
      nitrogen_frac_db: 'Nitrogen per dry mass [fraction, dry basis]',
      bulk_density_kg_m3: 'Bulk density as it comes [kg per cubic metre]',
      rates_like: 'Key of the material of the catalogue that rots as fast',
    },
  },
  {
    table: 'material_figure',
    row: "Figures of a material of the catalogue that were missing there and that the programme's people filled in",
    columns: {
      moisture_frac_wb: 'Water per mass as it comes [fraction, wet basis]; empty: the catalogue says it',
      carbon_frac_db: 'Carbon per dry mass [fraction, dry basis]; empty: the catalogue says it',
      nitrogen_frac_db: 'Nitrogen per dry mass [fraction, dry basis]; empty: the catalogue says it',
      bulk_density_kg_m3: 'Bulk density as it comes [kg per cubic metre]; empty: the catalogue says it',
      source: 'Where the figures come from',
      filled_at: 'When they were filled in, an instant in UTC',
    },
  },
  {
    table: 'container',
    row: 'A bucket or other container that scraps are counted in',
    columns: {
      name: 'Name of the container',
      volume_ml: 'What it holds [millilitres]',
      tare_g: 'Mass when it is empty [g]',
      full_g: 'Mass of what is in it when it is full, without the container [g]',
    },
  },
  {
    table: 'container_weighing',
    row: 'What a container was found to weigh',
    columns: {
      container_id: 'The container (table container)',
      net_g: 'Mass of what was in it [g]',
      filled: 'How full it was [fraction]',
      weighed_at: 'When it was weighed, an instant in UTC',
    },
  },
  {
    table: 'bedding_move',
    row: 'Bedding that came into store, was counted or was thrown away',
    columns: { kind: 'brought, counted or thrown-away', moved_at: 'When, an instant in UTC' },
  },
];
