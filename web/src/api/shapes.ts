// What the server sends, by the names the page uses. All of it comes from the interface's own
// description; only where JSON cannot say more than "some value" is it said here.

import type { Edit, Tree, Value } from '../house/values';
import type { components } from './schema';

type S = components['schemas'];

export type Level = 'stop' | 'fix' | 'ask' | 'note';
export type JobLine = S['JobLine'];
export type Both = Omit<S['Both'], 'was' | 'mine' | 'theirs'> & { was: Value; mine: Value; theirs: Value };
export type Conflict = Omit<S['ConflictView'], 'both' | 'edits'> & { both: Both[]; edits: Edit[] };
export type JobView = Omit<S['JobView'], 'values' | 'conflicts'> & { values: Tree; conflicts: Conflict[] };
export type Finding = Omit<S['FindingView'], 'level'> & { level: Level };
export type PlanView = Omit<S['PlanView'], 'findings'> & { findings: Finding[] };
export type YearView = S['YearView'];
export type Why = S['WhyView'];
export type Trial = S['TrialView'];
export type Problem = S['ProblemView'];
export type Refusal = S['Refused'];
export type Kept = S['Kept'];
export type RestsOn = S['RestsOn'];
export type TestIn = S['TestIn'];
export type ReadingIn = S['ReadingIn'];
export type TestView = S['TestView'];
export type OpeningView = S['OpeningView'];
export type BillsView = S['BillsView'];
export type BillsRead = S['ReadView'];
export type TemperaturesView = S['TemperaturesView'];
export type OptionsView = S['OptionsView'];
export type BandsView = S['BandsView'];
export type ChargeIn = S['ChargeIn'];
export type ChargeView = S['ChargeView'];
export type RunIn = S['RunIn'];
export type RunView = S['RunView'];
export type UnitOfDay = S['UnitView'];
export type PhotoView = S['PhotoView'];
export type CatalogueUnit = S['SheetView'];
export type Station = S['WeatherView'];
export type Me = S['Me'];
export type Person = S['PersonView'];
export type Role = S['Role'];
export type Link = S['LinkView'];
export type Noted = S['NotedView'];
export type PapersView = S['PapersView'];
export type AgainstLine = S['AgainstLine'];
export type Shared = S['SharedView'];
