/** The manual. */
import { Router } from 'express';
import type { Field, Group, RowList } from '../form/field.ts';
import { AIM_FIELDS, BUNDLE_FIELDS, OPENINGS, SAW_FIELDS, VESSEL_FIELDS } from '../form/jobFields.ts';
import { LEGS, LIFT_RULES } from '../form/liftFields.ts';
import { LOT_FIELDS, LOT_MORE } from '../form/pileFields.ts';
import { VOID_FIELDS, VOID_LISTS, VOID_MORE } from '../form/voidFields.ts';

export function helpRoutes(): Router {
  const router = Router();
  router.get('/help', (_request, response) => {
    response.render('help', {
      parts: [
        { title: 'The pile', fields: [...LOT_FIELDS, ...LOT_MORE] },
        { title: 'The saw', fields: SAW_FIELDS },
        { title: 'Bundles', fields: BUNDLE_FIELDS },
        { title: 'Voids', fields: VOID_FIELDS },
        ...[...VOID_LISTS, ...VOID_MORE].map((group) => ({ title: `Voids: ${group.title}`, fields: fieldsOf(group) })),
        { title: 'Vessel', fields: [...VESSEL_FIELDS, ...OPENINGS.fields] },
        { title: 'Carrying', fields: [...LIFT_RULES, ...LEGS.fields] },
        { title: 'Aims', fields: AIM_FIELDS },
      ],
    });
  });
  return router;
}

/** The fields of a group and of its lists. */
function fieldsOf(group: Group | RowList): Field[] {
  const lists = 'rows' in group ? (group.rows ?? []) : [];
  return [...group.fields, ...lists.flatMap((list) => list.fields)];
}
