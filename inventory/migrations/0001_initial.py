import django.db.models.deletion
import django.db.models.functions.text
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    initial = True

    dependencies = [
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="CatalogueItem",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("pad", "Pad"),
                            ("paper", "Paper"),
                            ("embellishment", "Embellishment"),
                            ("blank", "Blank"),
                            ("supply", "Supply"),
                            ("tool", "Tool"),
                        ],
                        max_length=13,
                    ),
                ),
                ("name", models.TextField()),
                ("facts", models.JSONField(blank=True, default=dict)),
                ("changed_at", models.DateTimeField()),
                (
                    "changed_by",
                    models.ForeignKey(
                        blank=True,
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
                        models.F("kind"), django.db.models.functions.text.Lower("name"), name="item_one_name_a_kind"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("kind__in", ["pad", "paper", "embellishment", "blank", "supply", "tool"])),
                        name="item_kind_is_known",
                    ),
                ],
            },
        ),
    ]
