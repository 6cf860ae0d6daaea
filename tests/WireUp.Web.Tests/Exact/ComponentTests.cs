using System.Collections.Immutable;
using Bunit;
using WireUp.Layouts;
using WireUp.Web.Components.Pages;
using WireUp.Web.Components.Views;

namespace WireUp.Web.Tests.Exact;

public sealed class ComponentTests : BunitContext
{
    [Fact]
    public void A_problem_is_listed_with_line_column_code_and_what_would_be_right_and_tells_which_one_was_chosen()
    {
        ImmutableArray<LayoutProblem> problems = LayoutFile.Read("wireup: 1\nname: A\nscale: HOO\n", "a").Problems;
        LayoutProblem? chosen = null;
        IRenderedComponent<ProblemList> list = Render<ProblemList>(with => with.Add(each => each.Problems, problems).Add(each => each.Chosen, problem => chosen = problem));
        LayoutProblem scale = problems.First(problem => problem.Line == 3);
        AngleSharp.Dom.IElement row = list.FindAll("li").First(item => item.TextContent.Contains("Line 3", StringComparison.Ordinal));
        Assert.Contains(scale.Code, row.TextContent, StringComparison.Ordinal);
        Assert.Contains(scale.Expected, row.TextContent, StringComparison.Ordinal);
        row.QuerySelector("button")!.Click();
        Assert.Equal(scale, chosen);
    }

    [Fact]
    public void A_findings_page_is_headings_paragraphs_and_code_and_never_markup_of_its_own()
    {
        IRenderedComponent<FindingText> page = Render<FindingText>(with => with.Add(each => each.Text, "# Title\n\nSome `words` <b>here</b>.\n\n```yaml\nname: <x>\n```\n"));
        Assert.Equal("Title", page.Find("h2").TextContent);
        Assert.Equal("Some words <b>here</b>.", page.Find("p").TextContent);
        Assert.Equal("name: <x>", page.Find("pre").TextContent);
        Assert.Empty(page.FindAll("b"));
    }
}
