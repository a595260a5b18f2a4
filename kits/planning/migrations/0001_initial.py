import django.db.models.deletion
import django.db.models.functions.text
from django.conf import settings
from django.db import migrations, models

import kits.planning.models.projects
import layouts.fields
import layouts.lengths.length


class Migration(migrations.Migration):
    initial = True

    dependencies = [
        ("inventory", "0001_initial"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="Draft",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("is_main", models.BooleanField(default=True)),
                ("revision", models.PositiveIntegerField(default=1)),
                ("branched_from", models.CharField(blank=True, max_length=64)),
                ("title", models.TextField()),
                ("unit", models.CharField(max_length=2)),
                ("printed", models.JSONField(default=dict)),
                ("cutting", models.JSONField(default=dict)),
                ("carried", models.JSONField(default=dict)),
            ],
        ),
        migrations.CreateModel(
            name="Blank",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveIntegerField()),
                ("carried", models.JSONField(blank=True, default=dict)),
                ("ident", models.CharField(max_length=32)),
                ("name", models.TextField()),
                ("count", models.PositiveIntegerField(default=1)),
                ("thickness_um", models.PositiveIntegerField(null=True)),
                ("width", layouts.fields.LengthField(null=True)),
                ("depth", layouts.fields.LengthField(null=True)),
                ("height", layouts.fields.LengthField(null=True)),
                (
                    "item",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="inventory.catalogueitem",
                    ),
                ),
                (
                    "draft",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DB_CASCADE, related_name="+", to="planning.draft"
                    ),
                ),
            ],
            options={
                "ordering": ["position"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="AcceptedFinding",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveIntegerField()),
                ("carried", models.JSONField(blank=True, default=dict)),
                ("rule", models.TextField()),
                ("at", models.JSONField()),
                ("why", models.TextField()),
                ("because", models.TextField()),
                ("by", models.TextField()),
                (
                    "draft",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DB_CASCADE, related_name="+", to="planning.draft"
                    ),
                ),
            ],
            options={
                "ordering": ["position"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Embellishment",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveIntegerField()),
                ("carried", models.JSONField(blank=True, default=dict)),
                ("ident", models.CharField(max_length=32)),
                ("name", models.TextField()),
                ("sheets", models.PositiveIntegerField(default=1)),
                (
                    "draft",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DB_CASCADE, related_name="+", to="planning.draft"
                    ),
                ),
                (
                    "item",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="inventory.catalogueitem",
                    ),
                ),
            ],
            options={
                "ordering": ["position"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Element",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveIntegerField()),
                ("carried", models.JSONField(blank=True, default=dict)),
                ("ident", models.CharField(max_length=32)),
                ("name", models.TextField()),
                ("count", models.PositiveIntegerField()),
                ("width", layouts.fields.LengthField(null=True)),
                ("height", layouts.fields.LengthField(null=True)),
                ("two_sided", models.BooleanField(default=False)),
                (
                    "embellishment",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DB_CASCADE, related_name="+", to="planning.embellishment"
                    ),
                ),
            ],
            options={
                "ordering": ["position"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Face",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveIntegerField()),
                ("carried", models.JSONField(blank=True, default=dict)),
                ("ident", models.CharField(max_length=32)),
                ("width", layouts.fields.LengthField()),
                ("height", layouts.fields.LengthField()),
                ("count", models.PositiveIntegerField(default=1)),
                ("inside", models.BooleanField(default=False)),
                ("opening", models.JSONField(null=True)),
                (
                    "blank",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DB_CASCADE, related_name="+", to="planning.blank"
                    ),
                ),
            ],
            options={
                "ordering": ["position"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Kit",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("code", models.CharField(max_length=32)),
            ],
            options={
                "constraints": [
                    models.UniqueConstraint(django.db.models.functions.text.Lower("code"), name="kit_one_with_a_code")
                ],
            },
        ),
        migrations.AddField(
            model_name="draft",
            name="kit",
            field=models.ForeignKey(
                on_delete=django.db.models.deletion.DO_NOTHING, related_name="drafts", to="planning.kit"
            ),
        ),
        migrations.CreateModel(
            name="Pad",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveIntegerField()),
                ("carried", models.JSONField(blank=True, default=dict)),
                ("ident", models.CharField(max_length=32)),
                ("name", models.TextField()),
                ("width", layouts.fields.LengthField()),
                ("height", layouts.fields.LengthField()),
                (
                    "draft",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DB_CASCADE, related_name="+", to="planning.draft"
                    ),
                ),
                (
                    "item",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="inventory.catalogueitem",
                    ),
                ),
            ],
            options={
                "ordering": ["position"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Paper",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveIntegerField()),
                ("carried", models.JSONField(blank=True, default=dict)),
                ("ident", models.CharField(max_length=32)),
                ("name", models.TextField()),
                ("pad", models.CharField(blank=True, max_length=32)),
                ("width", layouts.fields.LengthField(null=True)),
                ("height", layouts.fields.LengthField(null=True)),
                ("sheets", models.PositiveIntegerField()),
                ("front", models.JSONField()),
                ("back", models.JSONField(null=True)),
                ("grammage", models.PositiveIntegerField(null=True)),
                ("caliper_um", models.PositiveIntegerField(null=True)),
                ("grain", models.CharField(blank=True, max_length=8)),
                ("undersize", layouts.fields.LengthField(default=layouts.lengths.length.Length.zero)),
                ("spoilt", models.JSONField(default=dict)),
                (
                    "draft",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DB_CASCADE, related_name="+", to="planning.draft"
                    ),
                ),
                (
                    "item",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="inventory.catalogueitem",
                    ),
                ),
            ],
            options={
                "ordering": ["position"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Project",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveIntegerField()),
                ("carried", models.JSONField(blank=True, default=dict)),
                ("ident", models.CharField(max_length=32)),
                ("title", models.TextField()),
                ("makes", models.PositiveIntegerField(default=1)),
                (
                    "draft",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DB_CASCADE, related_name="+", to="planning.draft"
                    ),
                ),
            ],
            options={
                "ordering": ["position"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Placement",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveIntegerField()),
                ("carried", models.JSONField(blank=True, default=dict)),
                ("ident", models.CharField(max_length=32)),
                ("put", models.JSONField()),
                ("on", models.JSONField()),
                ("layer", models.CharField(default="over", max_length=6)),
                ("left", layouts.fields.LengthField(null=True)),
                ("right", layouts.fields.LengthField(null=True)),
                ("centred", models.BooleanField(default=False)),
                ("top", layouts.fields.LengthField(null=True)),
                ("bottom", layouts.fields.LengthField(null=True)),
                ("middle", models.BooleanField(default=False)),
                ("turn", models.PositiveSmallIntegerField(default=0)),
                ("copies", models.JSONField(default=kits.planning.models.projects._on_each)),
                ("border", models.JSONField(null=True)),
                ("wraps", models.JSONField(default=list)),
                ("intends", models.JSONField(default=list)),
                (
                    "project",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DB_CASCADE, related_name="+", to="planning.project"
                    ),
                ),
            ],
            options={
                "ordering": ["position"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Piece",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveIntegerField()),
                ("carried", models.JSONField(blank=True, default=dict)),
                ("ident", models.CharField(max_length=32)),
                ("name", models.TextField()),
                ("paper", models.CharField(blank=True, max_length=32)),
                ("each", models.JSONField(null=True)),
                ("cut_from", models.CharField(blank=True, max_length=98)),
                ("side", models.CharField(default="front", max_length=6)),
                ("width", layouts.fields.LengthField()),
                ("height", layouts.fields.LengthField()),
                ("size_is", models.CharField(default="cut", max_length=8)),
                ("count", models.PositiveIntegerField(default=1)),
                ("print_reads", models.CharField(default="up", max_length=5)),
                ("shape", models.JSONField(default=dict)),
                ("edges", models.JSONField(default=dict)),
                ("mirror_of", models.CharField(blank=True, max_length=32)),
                (
                    "project",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DB_CASCADE, related_name="+", to="planning.project"
                    ),
                ),
            ],
            options={
                "ordering": ["position"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Form",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveIntegerField()),
                ("carried", models.JSONField(blank=True, default=dict)),
                ("ident", models.CharField(max_length=32)),
                ("name", models.TextField()),
                ("construction", models.CharField(max_length=10)),
                ("paper", models.CharField(blank=True, max_length=32)),
                ("each", models.JSONField(null=True)),
                ("side", models.CharField(default="front", max_length=5)),
                ("count", models.PositiveIntegerField(default=1)),
                ("print_reads", models.CharField(default="any", max_length=5)),
                ("parameters", models.JSONField(default=dict)),
                (
                    "project",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DB_CASCADE, related_name="+", to="planning.project"
                    ),
                ),
            ],
            options={
                "ordering": ["position"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Step",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveIntegerField()),
                ("carried", models.JSONField(blank=True, default=dict)),
                ("ident", models.CharField(max_length=32)),
                ("text", models.TextField()),
                ("cut", models.JSONField(default=list)),
                ("use", models.JSONField(default=list)),
                ("tools", models.JSONField(default=list)),
                ("work", models.CharField(blank=True, max_length=9)),
                ("hold", models.CharField(blank=True, max_length=9)),
                ("held", models.CharField(default="by-hand", max_length=7)),
                ("dry", models.CharField(blank=True, max_length=9)),
                ("after", models.JSONField(null=True)),
                ("closes", models.JSONField(default=list)),
                ("cautions", models.JSONField(default=list)),
                (
                    "project",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DB_CASCADE, related_name="+", to="planning.project"
                    ),
                ),
            ],
            options={
                "ordering": ["position"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Supply",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveIntegerField()),
                ("carried", models.JSONField(blank=True, default=dict)),
                ("ident", models.CharField(max_length=32)),
                ("name", models.TextField()),
                ("kind", models.CharField(max_length=13)),
                ("count", models.PositiveIntegerField(null=True)),
                ("length", layouts.fields.LengthField(null=True)),
                ("thickness_um", models.PositiveIntegerField(null=True)),
                ("given_by", models.CharField(default="kit", max_length=6)),
                (
                    "draft",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DB_CASCADE, related_name="+", to="planning.draft"
                    ),
                ),
                (
                    "item",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="inventory.catalogueitem",
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "supplies",
                "ordering": ["position"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Tool",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveIntegerField()),
                ("carried", models.JSONField(blank=True, default=dict)),
                ("ident", models.CharField(max_length=32)),
                ("name", models.TextField(null=True)),
                ("kind", models.CharField(max_length=12)),
                ("step", layouts.fields.LengthField(null=True)),
                ("longest", layouts.fields.LengthField(null=True)),
                ("narrowest", layouts.fields.LengthField(null=True)),
                ("bite", layouts.fields.LengthField(null=True)),
                ("pitch", layouts.fields.LengthField(null=True)),
                ("least_depth", layouts.fields.LengthField(null=True)),
                (
                    "draft",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DB_CASCADE, related_name="+", to="planning.draft"
                    ),
                ),
                (
                    "item",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="inventory.catalogueitem",
                    ),
                ),
            ],
            options={
                "ordering": ["position"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Window",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveIntegerField()),
                ("carried", models.JSONField(blank=True, default=dict)),
                ("ident", models.CharField(max_length=32)),
                ("left", layouts.fields.LengthField(null=True)),
                ("right", layouts.fields.LengthField(null=True)),
                ("top", layouts.fields.LengthField(null=True)),
                ("bottom", layouts.fields.LengthField(null=True)),
                ("width", layouts.fields.LengthField(null=True)),
                ("height", layouts.fields.LengthField(null=True)),
                ("shape", models.JSONField(default=dict)),
                ("cut_out", models.CharField(default="waste", max_length=5)),
                (
                    "piece",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DB_CASCADE, related_name="+", to="planning.piece"
                    ),
                ),
            ],
            options={
                "ordering": ["position"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Change",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("revision", models.PositiveIntegerField()),
                ("at", models.DateTimeField()),
                (
                    "what",
                    models.CharField(
                        choices=[
                            ("created", "Created"),
                            ("replaced", "Replaced"),
                            ("changed", "Changed"),
                            ("renamed", "Renamed"),
                            ("taken-over", "Taken Over"),
                            ("undone", "Undone"),
                        ],
                        max_length=10,
                    ),
                ),
                ("place", models.TextField(blank=True)),
                ("before", models.JSONField(null=True)),
                ("after", models.JSONField(null=True)),
                ("replaced", models.TextField(blank=True)),
                (
                    "by",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "undoes",
                    models.OneToOneField(
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="undone_by",
                        to="planning.change",
                    ),
                ),
                (
                    "draft",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.DO_NOTHING, related_name="changes", to="planning.draft"
                    ),
                ),
            ],
            options={
                "ordering": ["-revision"],
                "constraints": [
                    models.UniqueConstraint(fields=("draft", "revision"), name="change_one_for_a_revision"),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("what__in", ["created", "replaced", "changed", "renamed", "taken-over", "undone"])
                        ),
                        name="change_what_is_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("undoes__isnull", False), ("what", "undone")),
                            models.Q(models.Q(("what", "undone"), _negated=True), ("undoes__isnull", True)),
                            _connector="OR",
                        ),
                        name="change_only_an_undoing_one_undoes",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("what", "replaced"), models.Q(("replaced", ""), _negated=True)),
                            models.Q(models.Q(("what", "replaced"), _negated=True), ("replaced", "")),
                            _connector="OR",
                        ),
                        name="change_only_a_replacing_one_replaced",
                    ),
                ],
            },
        ),
        migrations.AddConstraint(
            model_name="blank",
            constraint=models.UniqueConstraint(fields=("draft", "position"), name="blank_one_at_a_position"),
        ),
        migrations.AddConstraint(
            model_name="blank",
            constraint=models.UniqueConstraint(
                models.F("draft"), django.db.models.functions.text.Lower("ident"), name="blank_one_with_an_id"
            ),
        ),
        migrations.AddConstraint(
            model_name="blank",
            constraint=models.CheckConstraint(
                condition=models.Q(("count__range", (1, 10000))), name="blank_count_in_range"
            ),
        ),
        migrations.AddConstraint(
            model_name="blank",
            constraint=models.CheckConstraint(
                condition=models.Q(("thickness_um__range", (1, 10000000))), name="blank_thickness_um_in_range"
            ),
        ),
        migrations.AddConstraint(
            model_name="acceptedfinding",
            constraint=models.UniqueConstraint(fields=("draft", "position"), name="acceptedfinding_one_at_a_position"),
        ),
        migrations.AddConstraint(
            model_name="embellishment",
            constraint=models.UniqueConstraint(fields=("draft", "position"), name="embellishment_one_at_a_position"),
        ),
        migrations.AddConstraint(
            model_name="embellishment",
            constraint=models.UniqueConstraint(
                models.F("draft"), django.db.models.functions.text.Lower("ident"), name="embellishment_one_with_an_id"
            ),
        ),
        migrations.AddConstraint(
            model_name="embellishment",
            constraint=models.CheckConstraint(
                condition=models.Q(("sheets__range", (0, 10000))), name="embellishment_sheets_in_range"
            ),
        ),
        migrations.AddConstraint(
            model_name="element",
            constraint=models.UniqueConstraint(fields=("embellishment", "position"), name="element_one_at_a_position"),
        ),
        migrations.AddConstraint(
            model_name="element",
            constraint=models.UniqueConstraint(
                models.F("embellishment"), django.db.models.functions.text.Lower("ident"), name="element_one_with_an_id"
            ),
        ),
        migrations.AddConstraint(
            model_name="element",
            constraint=models.CheckConstraint(
                condition=models.Q(("count__range", (1, 10000))), name="element_count_in_range"
            ),
        ),
        migrations.AddConstraint(
            model_name="face",
            constraint=models.UniqueConstraint(fields=("blank", "position"), name="face_one_at_a_position"),
        ),
        migrations.AddConstraint(
            model_name="face",
            constraint=models.UniqueConstraint(
                models.F("blank"), django.db.models.functions.text.Lower("ident"), name="face_one_with_an_id"
            ),
        ),
        migrations.AddConstraint(
            model_name="face",
            constraint=models.CheckConstraint(
                condition=models.Q(("count__range", (1, 10000))), name="face_count_in_range"
            ),
        ),
        migrations.AddConstraint(
            model_name="draft",
            constraint=models.UniqueConstraint(
                condition=models.Q(("is_main", True)), fields=("kit",), name="draft_one_main_of_a_kit"
            ),
        ),
        migrations.AddConstraint(
            model_name="draft",
            constraint=models.CheckConstraint(
                condition=models.Q(("revision__gte", 1)), name="draft_revision_counts_from_1"
            ),
        ),
        migrations.AddConstraint(
            model_name="draft",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("branched_from", ""), ("is_main", True)),
                    models.Q(("is_main", False), models.Q(("branched_from", ""), _negated=True)),
                    _connector="OR",
                ),
                name="draft_main_or_branch",
            ),
        ),
        migrations.AddConstraint(
            model_name="draft",
            constraint=models.CheckConstraint(
                condition=models.Q(("unit__in", ["in", "mm"])), name="draft_unit_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="pad",
            constraint=models.UniqueConstraint(fields=("draft", "position"), name="pad_one_at_a_position"),
        ),
        migrations.AddConstraint(
            model_name="pad",
            constraint=models.UniqueConstraint(
                models.F("draft"), django.db.models.functions.text.Lower("ident"), name="pad_one_with_an_id"
            ),
        ),
        migrations.AddConstraint(
            model_name="paper",
            constraint=models.UniqueConstraint(fields=("draft", "position"), name="paper_one_at_a_position"),
        ),
        migrations.AddConstraint(
            model_name="paper",
            constraint=models.UniqueConstraint(
                models.F("draft"), django.db.models.functions.text.Lower("ident"), name="paper_one_with_an_id"
            ),
        ),
        migrations.AddConstraint(
            model_name="paper",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("height__isnull", False), ("pad", ""), ("width__isnull", False)),
                    models.Q(models.Q(("pad", ""), _negated=True), ("height__isnull", True), ("width__isnull", True)),
                    _connector="OR",
                ),
                name="paper_pad_or_size",
            ),
        ),
        migrations.AddConstraint(
            model_name="paper",
            constraint=models.CheckConstraint(
                condition=models.Q(("grain__in", ["up", "sideways", ""])), name="paper_grain_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="paper",
            constraint=models.CheckConstraint(
                condition=models.Q(("sheets__range", (0, 10000))), name="paper_sheets_in_range"
            ),
        ),
        migrations.AddConstraint(
            model_name="paper",
            constraint=models.CheckConstraint(
                condition=models.Q(("grammage__range", (1, 10000))), name="paper_grammage_in_range"
            ),
        ),
        migrations.AddConstraint(
            model_name="paper",
            constraint=models.CheckConstraint(
                condition=models.Q(("caliper_um__range", (1, 10000000))), name="paper_caliper_um_in_range"
            ),
        ),
        migrations.AddConstraint(
            model_name="project",
            constraint=models.UniqueConstraint(fields=("draft", "position"), name="project_one_at_a_position"),
        ),
        migrations.AddConstraint(
            model_name="project",
            constraint=models.UniqueConstraint(
                models.F("draft"), django.db.models.functions.text.Lower("ident"), name="project_one_with_an_id"
            ),
        ),
        migrations.AddConstraint(
            model_name="project",
            constraint=models.CheckConstraint(
                condition=models.Q(("makes__range", (1, 10000))), name="project_makes_in_range"
            ),
        ),
        migrations.AddConstraint(
            model_name="placement",
            constraint=models.UniqueConstraint(fields=("project", "position"), name="placement_one_at_a_position"),
        ),
        migrations.AddConstraint(
            model_name="placement",
            constraint=models.UniqueConstraint(
                models.F("project"), django.db.models.functions.text.Lower("ident"), name="placement_one_with_an_id"
            ),
        ),
        migrations.AddConstraint(
            model_name="placement",
            constraint=models.CheckConstraint(
                condition=models.Q(("layer__in", ["over", "behind"])), name="placement_layer_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="placement",
            constraint=models.CheckConstraint(
                condition=models.Q(("turn__in", [0, 90, 180, 270])), name="placement_turn_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="piece",
            constraint=models.UniqueConstraint(fields=("project", "position"), name="piece_one_at_a_position"),
        ),
        migrations.AddConstraint(
            model_name="piece",
            constraint=models.UniqueConstraint(
                models.F("project"), django.db.models.functions.text.Lower("ident"), name="piece_one_with_an_id"
            ),
        ),
        migrations.AddConstraint(
            model_name="piece",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("each__isnull", True), ("paper", "")),
                    models.Q(("cut_from", ""), ("paper", "")),
                    models.Q(("cut_from", ""), ("each__isnull", True)),
                    _connector="OR",
                ),
                name="piece_one_source_at_most",
            ),
        ),
        migrations.AddConstraint(
            model_name="piece",
            constraint=models.CheckConstraint(
                condition=models.Q(("side__in", ["front", "back", "either", "both"])), name="piece_side_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="piece",
            constraint=models.CheckConstraint(
                condition=models.Q(("size_is__in", ["cut", "finished"])), name="piece_size_is_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="piece",
            constraint=models.CheckConstraint(
                condition=models.Q(("print_reads__in", ["up", "down", "left", "right", "any"])),
                name="piece_print_reads_is_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="piece",
            constraint=models.CheckConstraint(
                condition=models.Q(("count__range", (1, 10000))), name="piece_count_in_range"
            ),
        ),
        migrations.AddConstraint(
            model_name="form",
            constraint=models.UniqueConstraint(fields=("project", "position"), name="form_one_at_a_position"),
        ),
        migrations.AddConstraint(
            model_name="form",
            constraint=models.UniqueConstraint(
                models.F("project"), django.db.models.functions.text.Lower("ident"), name="form_one_with_an_id"
            ),
        ),
        migrations.AddConstraint(
            model_name="form",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("each__isnull", False), ("paper", "")),
                    models.Q(models.Q(("paper", ""), _negated=True), ("each__isnull", True)),
                    _connector="OR",
                ),
                name="form_paper_or_each",
            ),
        ),
        migrations.AddConstraint(
            model_name="form",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    (
                        "construction__in",
                        ["tray", "lid", "sleeve", "concertina", "pocket", "frame", "envelope", "tag", "scored"],
                    )
                ),
                name="form_construction_is_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="form",
            constraint=models.CheckConstraint(
                condition=models.Q(("side__in", ["front", "back"])), name="form_side_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="form",
            constraint=models.CheckConstraint(
                condition=models.Q(("print_reads__in", ["up", "down", "left", "right", "any"])),
                name="form_print_reads_is_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="form",
            constraint=models.CheckConstraint(
                condition=models.Q(("count__range", (1, 10000))), name="form_count_in_range"
            ),
        ),
        migrations.AddConstraint(
            model_name="step",
            constraint=models.UniqueConstraint(fields=("project", "position"), name="step_one_at_a_position"),
        ),
        migrations.AddConstraint(
            model_name="step",
            constraint=models.UniqueConstraint(
                models.F("project"), django.db.models.functions.text.Lower("ident"), name="step_one_with_an_id"
            ),
        ),
        migrations.AddConstraint(
            model_name="step",
            constraint=models.CheckConstraint(
                condition=models.Q(("held__in", ["by-hand", "clamped"])), name="step_held_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="supply",
            constraint=models.UniqueConstraint(fields=("draft", "position"), name="supply_one_at_a_position"),
        ),
        migrations.AddConstraint(
            model_name="supply",
            constraint=models.UniqueConstraint(
                models.F("draft"), django.db.models.functions.text.Lower("ident"), name="supply_one_with_an_id"
            ),
        ),
        migrations.AddConstraint(
            model_name="supply",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    (
                        "kind__in",
                        [
                            "ribbon",
                            "foam",
                            "glazing",
                            "light",
                            "button-cell",
                            "battery",
                            "fastener",
                            "adhesive-tape",
                            "other",
                        ],
                    )
                ),
                name="supply_kind_is_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="supply",
            constraint=models.CheckConstraint(
                condition=models.Q(("given_by__in", ["kit", "member"])), name="supply_given_by_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="supply",
            constraint=models.CheckConstraint(
                condition=models.Q(("count__range", (1, 10000))), name="supply_count_in_range"
            ),
        ),
        migrations.AddConstraint(
            model_name="supply",
            constraint=models.CheckConstraint(
                condition=models.Q(("thickness_um__range", (1, 10000000))), name="supply_thickness_um_in_range"
            ),
        ),
        migrations.AddConstraint(
            model_name="tool",
            constraint=models.UniqueConstraint(fields=("draft", "position"), name="tool_one_at_a_position"),
        ),
        migrations.AddConstraint(
            model_name="tool",
            constraint=models.UniqueConstraint(
                models.F("draft"), django.db.models.functions.text.Lower("ident"), name="tool_one_with_an_id"
            ),
        ),
        migrations.AddConstraint(
            model_name="tool",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    (
                        "kind__in",
                        [
                            "trimmer",
                            "knife",
                            "scissors",
                            "punch",
                            "decorative",
                            "scorer",
                            "wet-glue",
                            "solvent-glue",
                            "hot-glue",
                            "tape",
                            "heat",
                            "other",
                        ],
                    )
                ),
                name="tool_kind_is_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="window",
            constraint=models.UniqueConstraint(fields=("piece", "position"), name="window_one_at_a_position"),
        ),
        migrations.AddConstraint(
            model_name="window",
            constraint=models.UniqueConstraint(
                models.F("piece"), django.db.models.functions.text.Lower("ident"), name="window_one_with_an_id"
            ),
        ),
        migrations.AddConstraint(
            model_name="window",
            constraint=models.CheckConstraint(
                condition=models.Q(("cut_out__in", ["waste", "kept"])), name="window_cut_out_is_known"
            ),
        ),
    ]
