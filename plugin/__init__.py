"""Undercourse: depth surfaces, guidelines and slope breaks from a finished-grade design."""


def classFactory(iface):
    """Return the plugin object; ``iface`` is None in ``qgis_process``.

    Nothing that may be missing (numpy, shapely) is imported before `environment.problem` has
    looked, so that its sentence reaches the user instead of a traceback.
    """
    from .plugin import UndercoursePlugin

    return UndercoursePlugin(iface)
