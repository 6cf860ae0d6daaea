using System.Globalization;
using System.Text;

namespace WireUp.Layouts.Tests.Exact;

/// <summary>Hostile files end in a problem: not in an exception, an exhausted stack or an exhausted memory.</summary>
public sealed class LimitTests
{
    /// <summary>The codes of problems that are tested here.</summary>
    public static string[] Codes { get; } = ["WU1002", "WU1027"];

    [Fact]
    public void A_file_of_too_many_characters_is_refused_unread() =>
        AssertLimit(new string('[', LayoutLimits.Characters + 1), 1, 1);

    [Theory]
    [InlineData("[")]
    [InlineData("{ a: ")]
    [InlineData("- ")]
    [InlineData("? ")]
    public void Two_hundred_thousand_brackets_are_refused_at_the_depth_limit(string bracket)
    {
        LayoutProblem problem = Only(string.Concat(Enumerable.Repeat(bracket, 200_000)));
        Assert.Contains(problem.Code, new[] { "WU1002", "WU1001", "WU1005" });
        Assert.Equal(1, problem.Line);
        Assert.InRange(problem.Column, 1, (bracket.Length * LayoutLimits.Depth) + 1);
    }

    [Fact]
    public void The_depth_limit_is_exact()
    {
        string Nested(int depth) => "x-deep: " + new string('[', depth - 1) + new string(']', depth - 1);
        Assert.DoesNotContain(LayoutFile.Read(Nested(LayoutLimits.Depth), "test").Problems, problem => problem.Code == "WU1002");
        AssertLimit(Nested(LayoutLimits.Depth + 1), 1, "x-deep: ".Length + LayoutLimits.Depth);
    }

    [Fact]
    public void A_bomb_of_aliases_is_refused_at_its_first_mark()
    {
        StringBuilder bomb = new("a: &a [x, x, x, x, x, x, x, x, x]\n");
        for (char c = 'b'; c <= 'z'; c++)
        {
            bomb.Append(CultureInfo.InvariantCulture, $"{c}: &{c} [{string.Join(", ", Enumerable.Repeat($"*{(char)(c - 1)}", 9))}]\n");
        }

        LayoutProblem problem = Only(bomb.ToString());
        Assert.Equal(("WU1003", 1, 4, "&a"), (problem.Code, problem.Line, problem.Column, problem.Text));
    }

    [Fact]
    public void A_value_that_is_too_long_is_refused() =>
        AssertLimit("wireup: 1\nname: " + new string('x', LayoutLimits.ScalarCharacters + 1) + "\n", 2, 7);

    [Fact]
    public void A_file_of_too_many_parts_is_refused()
    {
        string text = "x: [" + string.Concat(Enumerable.Repeat("1,", LayoutLimits.Parts)) + "]";
        Assert.Equal("WU1002", Only(text).Code);
    }

    [Fact]
    public void A_layout_of_too_many_pieces_is_refused()
    {
        StringBuilder text = new("wireup: 1\nname: x\nlongest-train: 1 m\ntrack:\n");
        for (int i = 0; i <= LayoutLimits.Pieces; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"  s{i}: {{ length: 1 m }}\n");
        }

        AssertLimit(text.ToString(), LayoutLimits.Pieces + 5, 3);
    }

    [Fact]
    public void A_large_layout_within_the_limits_is_read()
    {
        const int Pieces = 20_000;
        StringBuilder text = new("wireup: 1\nname: x\nlongest-train: 1 m\ntrack:\n");
        text.AppendJoin("", Enumerable.Range(0, Pieces).Select(i => $"  s{i}: {{ length: 1 m }}\n")).Append("joined:\n");
        text.AppendJoin("", Enumerable.Range(1, Pieces - 1).Select(i => $"  - s{i - 1} > s{i}\n"));
        Layout layout = LayoutFile.Read(text.ToString(), "test").Layout!;
        Assert.Equal((Pieces, Pieces - 1), (layout.Track.Length, layout.Joints.Length));
    }

    [Fact]
    public void Problems_beyond_those_listed_are_only_mentioned()
    {
        string text = string.Concat(Enumerable.Range(0, LayoutLimits.Problems + 50).Select(i => $"key{i}: 1\n"));
        LayoutReading reading = LayoutFile.Read(text, "test");
        Assert.Equal(LayoutLimits.Problems + 1, reading.Problems.Length);
        Assert.Equal("WU1027", reading.Problems[^1].Code);
    }

    [Fact]
    public void A_name_that_is_too_long_is_refused()
    {
        string name = new('n', LayoutLimits.NameCharacters + 1);
        LayoutReading reading = LayoutFile.Read($"wireup: 1\nname: x\nlongest-train: 1 m\ntrack:\n  {name}: {{ length: 1 m }}\n  {name[1..]}: {{ length: 1 m }}\n", "test");
        Assert.Equal(["5:3 WU1014"], reading.Problems.Select(problem => $"{problem.Line}:{problem.Column} {problem.Code}"));
    }

    [Fact]
    public void Hundreds_of_thousands_of_unknown_names_cost_no_more_than_reading_them()
    {
        StringBuilder text = new("wireup: 1\nname: x\nlongest-train: 1 m\ntrack:\n");
        text.AppendJoin("", Enumerable.Range(0, 5_000).Select(i => $"  a-rather-long-name-for-a-piece-{i}: {{ length: 1 m }}\n"));
        text.Append("spots:\n  no-gap: [").AppendJoin(", ", Enumerable.Range(0, 200_000).Select(i => $"a-rather-long-nmae-for-a-piece-{i}")).Append("]\n");
        text.Append("stock:\n  locomotives:\n").AppendJoin("", Enumerable.Range(0, 100_000).Select(i => $"    l{i}: {{}}\n"));
        text.Append("  trains: { t: { length: 1 m, locomotives: [").AppendJoin(", ", Enumerable.Range(0, 200_000).Select(i => $"m{i}")).Append("] } }\n");
        LayoutReading reading = LayoutFile.Read(text.ToString(), "test");
        Assert.Equal(LayoutLimits.Problems + 1, reading.Problems.Length);
    }

    private static void AssertLimit(string text, int line, int column)
    {
        LayoutProblem problem = Only(text);
        Assert.Equal(("WU1002", line, column), (problem.Code, problem.Line, problem.Column));
    }

    private static LayoutProblem Only(string text)
    {
        LayoutReading reading = LayoutFile.Read(text, "test");
        Assert.Null(reading.Layout);
        return Assert.Single(reading.Problems);
    }
}
