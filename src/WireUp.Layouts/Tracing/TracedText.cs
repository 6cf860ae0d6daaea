using System.Globalization;
using System.Text;

namespace WireUp.Layouts.Tracing;

/// <summary>A traced layout as the text of a file, with the questions that are open in comments.</summary>
public static class TracedText
{
    /// <summary>The text.</summary>
    /// <param name="traced">The layout.</param>
    /// <param name="source">What it was traced from, for the first line: <c>attic.svg, 1 unit = 1 mm</c>.</param>
    public static string Write(TracedLayout traced, string source)
    {
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $"# Traced from {OneLine(source)}. Sections without a length are as long as their path.\n");
        text.Append("# The longest train and the frogs are guesses: say what yours are.\n");
        if (!traced.Questions.IsEmpty)
        {
            text.Append("# The lines left these questions open. What was taken stands behind each; trace again with another answer to change it.\n");
        }

        foreach (TakenAnswer question in traced.Questions)
        {
            string others = string.Join(", ", question.Question.Answers.Select(answer => answer.Word).Where(word => word != question.Taken.Word));
            text.Append(CultureInfo.InvariantCulture, $"#   {question.Question.Id}={question.Taken.Word} at {Point(question.Question.At)} (or {others})\n");
        }

        return text.Append(LayoutFile.Write(traced.Layout)).ToString();
    }

    /// <summary>A point of the plan in words: <c>1.25 m, 0.4 m</c>.</summary>
    public static string Point(PlanPoint at) => string.Create(CultureInfo.InvariantCulture, $"{at.X:0.###} m, {at.Y:0.###} m");

    private static string OneLine(string text) => string.Concat(text.Select(c => char.IsControl(c) || c is '\u2028' or '\u2029' ? ' ' : c));
}
