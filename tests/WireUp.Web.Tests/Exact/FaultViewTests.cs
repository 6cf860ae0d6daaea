using Bunit;
using Microsoft.Extensions.DependencyInjection;
using WireUp.Faults;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Web.Components.Views;
using WireUp.Web.Desk;
using WireUp.Web.Folders;

namespace WireUp.Web.Tests.Exact;

public sealed class FaultViewTests : BunitContext
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private static readonly LayoutName Branch = LayoutName.Of("slate-branch")!.Value;

    private readonly DirectoryInfo _directory = Directory.CreateTempSubdirectory("wireup-faults-");
    private readonly LayoutFolder _folder;
    private readonly SharedWork _work = new();
    private readonly DeskState _state = new(Branch);

    public FaultViewTests()
    {
        string text = RepoFiles.ReadText("sample-layouts/slate-branch.layout.yaml");
        File.Copy(RepoFiles.PathOf("sample-layouts/slate-branch.readings.yaml"), Path.Combine(_directory.FullName, "slate-branch.readings.yaml"));
        _folder = new(_directory);
        _state.Open = new(Branch, "1", LayoutDocument.Open(text, Branch.FileName));
        Services.AddSingleton(new FaultDesk(_folder, _work));
        JSInterop.SetupModule("/_content/WireUp.Web/keep.js").Mode = JSRuntimeMode.Loose;
    }

    [Fact]
    public void Readings_of_the_file_give_the_ranking_of_the_room_with_its_runner_up_and_letters_on_the_plan()
    {
        IRenderedComponent<FaultView> view = Taken();
        Diagnosis told = FaultSearch.Rank(_state.Open!.Layout!, _state.Readings, cancel: Xunit.TestContext.Current.CancellationToken)!;
        AngleSharp.Dom.IElement[] rows = [.. view.FindAll("ol.suspects > li")];
        Assert.True(rows.Length >= 2);
        Assert.All(rows.Zip(told.Faults), row =>
        {
            Assert.Contains(DiagnosisWords.Percent(row.Second.Probability), row.First.TextContent, StringComparison.Ordinal);
            Assert.Contains(row.Second.Parts[0].Element.Place, row.First.TextContent, StringComparison.Ordinal);
        });
        Assert.Contains(DiagnosisWords.Verdict(_state.Readings, told), view.Markup, StringComparison.Ordinal);
        Assert.Equal(["AB", "CD"], _state.Marks.Select(mark => mark.Text).Take(2));
        Assert.Equal("quarry-1.b", _state.Marks[0].Place);
        Assert.Contains(DiagnosisWords.Caution, view.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_click_puts_a_suggestion_into_the_form_and_throws_the_turnouts_for_it()
    {
        IRenderedComponent<FaultView> view = Taken();
        _state.ThrowBack();
        await view.InvokeAsync(() => view.Find("ul.next button").Click());
        view.WaitForAssertion(() => Assert.Equal("quarry-2@0.45 m", view.Find("#at").GetAttribute("value")), Patience);
        Assert.Equal("0.5 A", view.Find("#load").GetAttribute("value"));
        Assert.Equal("quarry-3@0.5 m", view.Find("#load-at").GetAttribute("value"));
        Assert.Equal("diverging", _state.PositionOf(new("T2")));
    }

    [Fact]
    public async Task A_sign_that_stands_for_two_suspects_chooses_one_after_the_other()
    {
        IRenderedComponent<FaultView> view = Taken();
        await view.InvokeAsync(() => _state.OnMark!("quarry-1.b"));
        view.WaitForAssertion(() => Assert.Contains("left rail", view.Find("[aria-pressed=true]").TextContent, StringComparison.Ordinal), Patience);
        await view.InvokeAsync(() => _state.OnMark!("quarry-1.b"));
        view.WaitForAssertion(() => Assert.Contains("right rail", view.Find("[aria-pressed=true]").TextContent, StringComparison.Ordinal), Patience);
        Assert.Equal("suspect chosen", _state.Marks[0].Kind);
        Assert.Equal("quarry-1.b", _state.GoTo);
    }

    [Fact]
    public async Task A_reading_is_changed_in_its_place_and_taken_away()
    {
        IRenderedComponent<FaultView> view = Taken();
        await view.InvokeAsync(() => view.Find("button[aria-label^='Change: 14.4 V']").Click());
        Assert.Equal("14.4 V at quarry-3@0.5 m when T2.diverging", view.Find("#at").GetAttribute("value"));
        await view.InvokeAsync(() => view.Find("#at").Change("14.2 V at quarry-3@0.5 m when T2.diverging"));
        await view.InvokeAsync(() => view.Find("form").Submit());
        view.WaitForAssertion(() => Assert.Equal("14.2 V at quarry-3@0.5 m when T2.diverging", _state.Readings.Readings[1].ToString()), Patience);
        Assert.Equal(4, _state.Readings.Readings.Length);
        await view.InvokeAsync(() => view.Find("button[aria-label^='Take away: 14.2 V']").Click());
        Assert.Equal(3, _state.Readings.Readings.Length);
    }

    [Fact]
    public async Task What_cannot_be_read_is_told_and_stays_in_the_form_and_words_in_plain_speech_get_the_list_of_the_trade()
    {
        IRenderedComponent<FaultView> view = Shown();
        await view.InvokeAsync(() => view.Find("#at").Change("nowhere@1 m"));
        await view.InvokeAsync(() => view.Find("form").Submit());
        Assert.Contains("nowhere", view.Find("[role=alert]").TextContent, StringComparison.Ordinal);
        Assert.Equal("nowhere@1 m", view.Find("#at").GetAttribute("value"));
        await view.InvokeAsync(() => view.Find("#kind").Change("sentence"));
        await view.InvokeAsync(() => view.Find("#at").Change("short while the turnout moves"));
        await view.InvokeAsync(() => view.Find("form").Submit());
        Assert.Contains("no published source", view.Find("div.notice").TextContent, StringComparison.Ordinal);
        Assert.Empty(_state.Readings.Readings);
    }

    [Fact]
    public async Task Readings_that_no_fault_explains_are_called_contradictory()
    {
        IRenderedComponent<FaultView> view = Taken();
        await view.InvokeAsync(() => view.Find("#kind").Change("sentence"));
        await view.InvokeAsync(() => view.Find("#at").Change("14.4 V at quarry-3@0.5 m under 0.5 A when T2.diverging"));
        await view.InvokeAsync(() => view.Find("form").Submit());
        view.WaitForAssertion(() => Assert.Contains("No fault of the layout explains all readings", view.Find("[role=status] p.trouble").TextContent, StringComparison.Ordinal), Patience);
        Assert.True(view.FindAll("ol.suspects > li").Count >= 2);
    }

    [Fact]
    public async Task A_touch_of_the_track_fills_the_field_that_was_used_last()
    {
        IRenderedComponent<FaultView> view = Shown();
        await view.InvokeAsync(() => view.Find("#kind").Change("along"));
        TrackPlace place = LayoutWords.Place(_state.Open!.Layout!, "quarry-3@0.5 m").Value!.Value;
        await view.InvokeAsync(() => _state.OnTouch!(place));
        Assert.Equal("quarry-3@0.5 m/left", view.Find("#at").GetAttribute("value"));
        await view.InvokeAsync(() => _state.OnTouch!(place));
        Assert.Equal("quarry-3@0.5 m/left", view.Find("#to").GetAttribute("value"));
        await view.InvokeAsync(() => view.Find("#load-at").Focus());
        await view.InvokeAsync(() => _state.OnTouch!(place));
        Assert.Equal("quarry-3@0.5 m", view.Find("#load-at").GetAttribute("value"));
    }

    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        _work.Dispose();
        _folder.Dispose();
        _directory.Delete(recursive: true);
    }

    private IRenderedComponent<FaultView> Shown() => Render<FaultView>(with => with.AddCascadingValue(_state));

    private IRenderedComponent<FaultView> Taken()
    {
        IRenderedComponent<FaultView> view = Shown();
        view.FindAll("button").First(button => button.TextContent.StartsWith("Take in ", StringComparison.Ordinal)).Click();
        view.WaitForElement("ol.suspects > li", Patience);
        return view;
    }
}
