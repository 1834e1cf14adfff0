/** Jobs of which everything is told, so that whatever a control changes shows in the plan. Invented. */

type Table = Record<string, unknown>;

export const fullJobs = (): Table[] => [fullJob('composite-slate'), fullJob('sawn-shake'), otherwise(fullJob('natural-slate'))];

/** The same house where other things matter: closed valleys under trees, spaced boards, overhangs not told. */
function otherwise(job: Table): Table {
  const change = (table: string, by: Table) => ({ ...(job[table] as Table), ...by });
  const [house, porch] = job.block as [Table, Table];
  const [{ diagonal_left: _, ...undiagonal }] = job.plane as [Table];
  return {
    ...job,
    // Without a diagonal its offset counts.
    plane: [undiagonal],
    block: [house, { ...porch, outline_at: 'drip line', edges: [{ eave: '5/12' }, ...(porch.edges as Table[]).slice(1)] }],
    setting_out: change('setting_out', { valleys: 'closed', hips: 'mitred' }),
    deck: change('deck', { kind: 'spaced-boards', board_centers: '6 in' }),
    site: change('site', { ground_snow_psf: 0 }),
    attic: change('attic', { vapor_retarder: false }),
    dry_in: change('dry_in', { ice_barrier: { ...((job.dry_in as Table).ice_barrier as Table), length: '22 ft' } }),
  };
}

function fullJob(sheet: string): Table {
  const eave = (overhang = '14 in') => ({ eave: '8/12', overhang });
  const roll = (name: string) => ({ name, width: '36 in', length: '66 ft', side_lap: '4 in', end_lap: '6 in', weight_lb: 40 });
  return {
    format: 1,
    name: 'Full house',
    units: 'ft',
    covering: { sheet },
    block: [
      { name: 'house', outline_at: 'walls', outline: [[0, 0], [46, 0], [46, 27], [18, 27], [18, 41], [0, 41]], eave_height: '9 ft', edges: [eave(), eave(), eave(), { ...eave(), eave: '10/12' }, { gable: true, overhang: '9 in' }, eave()] },
      { name: 'porch', outline_at: 'walls', outline: [[24, -9], [38, -9], [38, 0], [24, 0]], eave_height: '7 ft', edges: [{ eave: '5/12', overhang: '9 in' }, { gable: true, overhang: '6 in' }, { wall: true }, { gable: true, overhang: '6 in' }] },
    ],
    dormer: [{ name: 'dormer', kind: 'gable', on: 'house.0', across: '13 ft', up: '5 ft', width: '6 ft', wall_height: '4 ft', pitch: '8/12', overhang: '8 in', rake_overhang: '6 in' }],
    opening: [
      { name: 'chimney', kind: 'chimney', plane: 'house.2', up: '7 ft', across: '12 ft', width: '40 in', height: '24 in' },
      { name: 'pipe', kind: 'pipe', at: [30, 6], diameter: '4 in' },
    ],
    plane: [{ name: 'shed', pitch: '5/12', eave: '20 ft', top: '20 ft', left_rake: '9 ft', right_rake: '9 ft', diagonal_left: '21.93 ft', facing: 'south' }],
    setting_out: { match_hips: false },
    deck: { kind: 'plywood', thickness: '5/8 in', joints: 'blocking', gravity: 0.5, exposed_soffit: false, flat: true, sound: true, dry: true, old_layers: 1, old_psf: 3, live_load_psf: 20, covering_load_psf: 12, snow_load_psf: 30 },
    fastener: { kind: 'ring-nail', metal: 'stainless-steel', length: '2 in', shank: '0.12 in', drive: 'hand', per_lb: 200 },
    site: { code: '2018', wind_mph: 115, wind_exposure: 'B', winter: '20 F', coldest: '-10 F', ground_snow_psf: 30, snow_exposure_factor: 1, snow_thermal_factor: 1.1, risk_category: 2, climate_zone: 5, fire_class: 'A', impact_class: 2, built: 1965, trees: true, north_deg: 10 },
    laying: { unit_temperature: '60 F', air_temperature: '55 F', store_temperature: '70 F', hours_conditioned: 30, chalk: 'blue' },
    dry_in: {
      wall_thickness: '6 in', wall_face: 'inner', overhang: '12 in', ice_barrier: roll('barrier'), interlayment: { ...roll('felt'), width: '18 in' },
      drip_edge: { length: '10 ft' }, fasteners: { in_field: '12 in', at_laps: '6 in', box_count: 2000 },
    },
    metal: { kind: 'copper', thickness: '0.0216 in' },
    flashing: { counter_at_walls: true, step_hem: '1/2 in', hem: '1/2 in' },
    attic: { area_sqft: 1200, balanced: true, vapor_retarder: true, ridge_vent: { nfa_per_foot_sqin: 18, section: '4 ft', framing: 'ridge-board' }, soffit_vent: { nfa_per_foot_sqin: 9 } },
    order: { attic_stock: 40, breakage_percent: 2, chance_short_percent: 5 },
    stage: { reach: '4 ft', patch: '4 ft', apart: '6 ft' },
    price: { extras: ['snow guards at the eaves'] },
  };
}
