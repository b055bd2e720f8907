"""The whole job: a set of modules becomes one plan. It is handed built modules and never imports a plugin."""
