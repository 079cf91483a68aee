"""What is fitted to the torque wrench of a tightening job, and how the wrench is set for it."""

from msgspec import Struct

from bitepoint.mechanics.wrench import wrench_setting_nm


class Fitted(Struct, frozen=True):
    """What is fitted to the torque wrench: nothing, a straight extension bar, or a crow-foot."""

    kind: str = ""
    lever_mm: float = 0.0
    offset_mm: float = 0.0
    angle_deg: float = 0.0

    def setting_nm(self, target_nm: float) -> float:
        """Return the right wrench setting: a straight bar changes nothing, a crow-foot does."""
        if self.kind != "crow-foot":
            return target_nm
        return wrench_setting_nm(target_nm, lever_mm=self.lever_mm, offset_mm=self.offset_mm, angle_deg=self.angle_deg)

    def tempting_nm(self, target_nm: float) -> float:
        """Return the setting of someone who corrects for the bar as if it were a crow-foot in line."""
        return wrench_setting_nm(target_nm, lever_mm=self.lever_mm, offset_mm=self.offset_mm)

    @property
    def label(self) -> str:
        """What a learner reads beside the wrench."""
        if not self.kind:
            return ""
        where = {"crow-foot": f", {_direction(self.angle_deg)}", "straight bar": ", between wrench and socket"}[
            self.kind
        ]
        return f"{self.kind}, {self.offset_mm:g} mm{where}; lever {self.lever_mm:g} mm"


def _direction(angle_deg: float) -> str:
    return {0.0: "in line with the handle", 90.0: "square to the handle"}.get(
        angle_deg, f"at {angle_deg:g}° to the handle"
    )
