// SPDX-License-Identifier: MIT
// Heaters and layouts as a person would name them.

import { vocabulary } from '../state/job';
import { units } from '../state/settings';
import { layoutSaid } from './said';

export const heaterTitle = (key: string): string => vocabulary.value?.heaters.find((one) => one.key === key)?.title.split(',')[0] ?? key;

export const layoutTitle = (id: string): string => layoutSaid(id, units.value);
