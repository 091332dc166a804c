/** The name of the plan file's format. */
export const PLAN_FORMAT = 'kentledge-plan/1';
