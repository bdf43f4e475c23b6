"""What setuptools is told beyond pyproject.toml.

The folders that belong to the package and stand elsewhere, and what an sdist carries for those who carry on.
"""

from __future__ import annotations

from setuptools.command.build_py import build_py
from setuptools.command.sdist import sdist

FOR_DEVELOPERS = ("tests", "jobs", "grammar", "templates", ".packaging", ".ci")
"""Folders of an sdist that no wheel has, or has elsewhere."""


class BuildPy(build_py):
    """Adds each package of package-dir that is mapped to a folder of its own to those found below compiler/."""

    def finalize_options(self) -> None:
        packages = self.distribution.packages
        packages += [
            name for name in self.distribution.package_dir if name.startswith("seatwright.") and name not in packages
        ]
        super().finalize_options()


class Sdist(sdist):
    """Adds tests, demo jobs and the pages for developers."""

    def make_distribution(self) -> None:
        for folder in FOR_DEVELOPERS:
            self.filelist.graft(folder)
        self.filelist.include("DEVELOPERS.md")
        self.filelist.global_exclude("*.py[cod]")
        self.filelist.prune("jobs/cards")
        super().make_distribution()
