import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("members", "0001_initial"),
    ]

    operations = [
        migrations.CreateModel(
            name="PersonRole",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "role",
                    models.CharField(
                        choices=[
                            ("planner", "planner"),
                            ("editor", "technical editor"),
                            ("care", "member care"),
                            ("stock", "stock"),
                            ("member", "member"),
                        ],
                        max_length=10,
                    ),
                ),
                ("granted_at", models.DateTimeField()),
                ("withdrawn_at", models.DateTimeField(null=True)),
                (
                    "granted_by",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "person",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="roles", to=settings.AUTH_USER_MODEL
                    ),
                ),
                (
                    "withdrawn_by",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("withdrawn_at__isnull", True)),
                        fields=("person", "role"),
                        name="person_role_held_once",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("role__in", ["planner", "editor", "care", "stock", "member"])),
                        name="person_role_is_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("withdrawn_by__isnull", True), ("withdrawn_at__isnull", False), _connector="OR"
                        ),
                        name="person_role_withdrawn_at_some_time",
                    ),
                ],
            },
        ),
    ]
