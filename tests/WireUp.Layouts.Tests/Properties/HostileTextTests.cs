using CsCheck;
using WireUp.Layouts.Tests.Support;

namespace WireUp.Layouts.Tests.Properties;

/// <summary>Whatever the text, reading ends in a layout or in problems that have a place in it.</summary>
public sealed class HostileTextTests
{
    private static readonly string[] Samples = [.. RepoFiles.SampleLayouts.Select(File.ReadAllText).Where(text => text.Length < 8_000), EveryPiece.Whole];

    [Fact]
    public void The_file_of_every_piece_is_whole_before_it_is_mangled() =>
        Assert.Equal([], LayoutFile.Read(EveryPiece.Whole, "test").Problems.Select(problem => problem.ToString()));


    private static readonly Gen<char> Mark = Gen.Char["{}[]:,-#&*!|>'\"%@`? \n\t\\~0a.\u0001é\uFEFF\u2028"];

    private static readonly Gen<(int Text, (double At, double Length, string Put)[] Edits)> Mangled = Gen.Select(
        Gen.Int[0, Samples.Length - 1],
        Gen.Select(Gen.Double[0, 1], Gen.Double[0, 1], Gen.String[Mark, 0, 3]).Array[1, 4]);

    [Fact]
    public void A_mangled_sample_never_makes_the_reader_throw() =>
        Mangled.Sample(given => Check(given.Edits.Aggregate(Samples[given.Text], Mangle)), iter: 1_000, threads: 1);

    [Fact]
    public void Random_marks_never_make_the_reader_throw() =>
        Gen.String[Mark, 0, 60].Sample(Check, iter: 4_000, threads: 1);

    private static string Mangle(string text, (double At, double Length, string Put) edit)
    {
        int at = (int)(edit.At * text.Length);
        int length = Math.Min((int)(edit.Length * edit.Length * edit.Length * 30), text.Length - at);
        return string.Concat(text.AsSpan(0, at), edit.Put, text.AsSpan(at + length));
    }

    private static void Check(string text)
    {
        LayoutReading reading = LayoutFile.Read(text, "test");
        int lines = text.Count(c => c is '\n' or '\r' or '\u0085' or '\u2028' or '\u2029') + 1;
        Assert.True(reading.Layout is not null || reading.Problems.Any(problem => problem.Severity == ProblemSeverity.Error));
        Assert.All(reading.Problems, problem =>
        {
            Assert.InRange(problem.Line, 1, lines);
            Assert.InRange(problem.Column, 1, text.Length + 2);
            Assert.NotEmpty(problem.Message);
            Assert.NotEmpty(problem.Expected);
        });
    }
}
