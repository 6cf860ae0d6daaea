namespace WireUp.Layouts.Tests.Exact;

/// <summary>Two edits of one file as two people make them.</summary>
public sealed class LayoutMergeTests
{
    private const string Seen = """
        # The attic.
        wireup: 1
        name: Attic     # since spring
        scale: HO
        longest-train: 1 m
        shortest-pickup: 40

        track:
          # The main line.
          main-1: { length: 1000 }   # old rail
          main-2: { length: 1200 }
          # The yard.
          yard-1: { length: 500 }

        joined:
          - main-1 > main-2
          - main-2 > yard-1

        """;

    [Fact]
    public void Both_edits_are_there_with_the_comments_of_both()
    {
        string mine = Seen.Replace("{ length: 1000 }   # old rail", "{ length: 1010 }   # measured", StringComparison.Ordinal)
            .Replace("# The attic.", "# The attic, redrawn.", StringComparison.Ordinal) + "# to do: a feeder\n";
        string theirs = Seen.Replace("  # The yard.\n", "  # A spur since March.\n  spur: { length: 300 }\n  # The yard, two tracks.\n", StringComparison.Ordinal)
            .Replace("  - main-2 > yard-1\n", "  - main-2 > yard-1\n  - yard-1 > spur\n", StringComparison.Ordinal) + "# seen by two\n";
        LayoutMerge.Joined joined = Assert.IsType<LayoutMerge.Joined>(LayoutMerge.Of(Seen, mine, theirs));
        Assert.Equal(
            """
            # The attic, redrawn.
            wireup: 1
            name: Attic     # since spring
            scale: HO
            longest-train: 1 m
            shortest-pickup: 40

            track:
              # The main line.
              main-1: { length: 1010 }   # measured
              main-2: { length: 1200 }
              # A spur since March.
              spur: { length: 300 }
              # The yard, two tracks.
              yard-1: { length: 500 }

            joined:
              - main-1 > main-2
              - main-2 > yard-1
              - yard-1 > spur
            # to do: a feeder
            # seen by two

            """,
            joined.Text);
        Assert.Equal(["joined: yard-1 > spur", "track: spur"], joined.Taken);
    }

    [Theory]
    [InlineData("length: 1200", "length: 1250", "length: 1300", "track: main-2", "both gave it another length")]
    [InlineData("  main-2: { length: 1200 }\n", "", "  main-2: { length: 1300 }\n", "track: main-2", "one took it away, the other changed it")]
    [InlineData("main-2 > yard-1", "main-2 > yard-1.b", "yard-1 > main-2.b", "joined: main-2 > yard-1", "both changed the same chain")]
    [InlineData("joined:\n  -", "x-note: one\njoined:\n  -", "x-note: two\njoined:\n  -", "x-note", "both added a key of one name")]
    public void What_both_changed_differently_is_refused_by_name(string old, string mine, string theirs, string entry, string why)
    {
        LayoutMerge merge = LayoutMerge.Of(Seen, Seen.Replace(old, mine, StringComparison.Ordinal), Seen.Replace(old, theirs, StringComparison.Ordinal));
        Assert.True(merge is LayoutMerge.Clash clash && clash.Entries.SequenceEqual([entry]), $"{why}: {merge}");
    }

    [Fact]
    public void A_problem_that_neither_has_is_refused()
    {
        string mine = Seen.Replace("  # The yard.\n  yard-1: { length: 500 }\n", "", StringComparison.Ordinal).Replace("  - main-2 > yard-1\n", "", StringComparison.Ordinal);
        string theirs = Seen.Replace("  - main-2 > yard-1\n", "  - main-2 > yard-1\n  - yard-1 > main-1.a\n", StringComparison.Ordinal);
        LayoutMerge.Misfit misfit = Assert.IsType<LayoutMerge.Misfit>(LayoutMerge.Of(Seen, mine, theirs));
        Assert.Contains("yard-1", misfit.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_text_that_has_problems_already_is_joined_all_the_same()
    {
        string mine = Seen.Replace("scale: HO", "scale: HOO", StringComparison.Ordinal), theirs = Seen.Replace("length: 500", "length: 520", StringComparison.Ordinal);
        string text = Assert.IsType<LayoutMerge.Joined>(LayoutMerge.Of(Seen, mine, theirs)).Text;
        Assert.Equal(mine.Replace("length: 500", "length: 520", StringComparison.Ordinal), text);
    }

    [Fact]
    public void A_text_in_brackets_is_not_taken_apart() =>
        Assert.IsType<LayoutMerge.Misfit>(LayoutMerge.Of("{ wireup: 1 }", "{ wireup: 1, name: one }", "{ wireup: 1, name: two }"));

    [Fact]
    public void Two_who_wire_at_once_both_have_their_feeder()
    {
        string seen = File.ReadAllText(RepoFiles.PathOf("sample-layouts/home-yard.layout.yaml"));
        const string Last = "    f6: { at: main-5@400, bus: P5, wire: 20 AWG, length: 250 }\n";
        string mine = seen.Replace(Last, Last + "    f7: { at: main-5@900, bus: P5, wire: 20 AWG, length: 250 }\n", StringComparison.Ordinal);
        string theirs = seen.Replace(Last, Last + "    f8: { at: main-3@900, bus: P3, wire: 20 AWG, length: 250 }\n", StringComparison.Ordinal);
        LayoutMerge.Joined joined = Assert.IsType<LayoutMerge.Joined>(LayoutMerge.Of(seen, mine, theirs));
        Layout layout = LayoutFile.Read(joined.Text, "test").Layout!;
        Assert.Equal(["f1", "f2", "f3", "f4", "f5", "f6", "f7", "f8"], layout.Wiring.Feeders.Select(feeder => feeder.Name).Order(StringComparer.Ordinal));
        Assert.Equal(seen.Split('\n').Length + 2, joined.Text.Split('\n').Length);
        Assert.Equal(["wiring: feeders: f8"], joined.Taken);
    }
}
