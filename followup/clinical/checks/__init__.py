"""The checks that a rule of the rulebook can name, one module for each family."""

from followup.clinical.checks import attendance, findings, pressures, sight, symptoms, tamponades
from followup.clinical.checks.look import Check

CHECKS: dict[str, Check] = {
    **symptoms.CHECKS,
    **pressures.CHECKS,
    **findings.CHECKS,
    **sight.CHECKS,
    **tamponades.CHECKS,
    **attendance.CHECKS,
}
