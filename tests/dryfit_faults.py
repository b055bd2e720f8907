"""The catalogue of deliberate faults, gathered from the files that hold them by subject."""

import dryfit_faults_fit
import dryfit_faults_gluing
import dryfit_faults_modules
import dryfit_faults_motion
import dryfit_faults_order
import dryfit_faults_proofs
import dryfit_faults_screws
from dryfit_fault import FAULTS, Fault

SUBJECTS = (
    dryfit_faults_fit,
    dryfit_faults_screws,
    dryfit_faults_order,
    dryfit_faults_motion,
    dryfit_faults_gluing,
    dryfit_faults_proofs,
    dryfit_faults_modules,
)

__all__ = ["FAULTS", "SUBJECTS", "Fault"]
