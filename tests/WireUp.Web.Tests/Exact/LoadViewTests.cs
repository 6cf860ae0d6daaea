using Bunit;
using Microsoft.Extensions.DependencyInjection;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Web.Components.Views;
using WireUp.Web.Desk;
using WireUp.Web.Folders;

namespace WireUp.Web.Tests.Exact;

public sealed class LoadViewTests : BunitContext
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    private readonly DirectoryInfo _directory = Directory.CreateTempSubdirectory("wireup-load-");
    private readonly LayoutFolder _folder;
    private readonly SharedWork _work = new();
    private readonly DeskState _state;

    public LoadViewTests()
    {
        LayoutName name = LayoutName.Of("slate-branch")!.Value;
        _folder = new(_directory);
        _state = new(name) { Open = new(name, "1", LayoutDocument.Open(RepoFiles.ReadText("sample-layouts/slate-branch.layout.yaml"), name.FileName)) };
        Services.AddSingleton(new LayoutDesk(_folder, _work));
    }

    [Fact]
    public async Task A_train_that_is_put_somewhere_is_answered_moved_with_its_sign_and_taken_away()
    {
        IRenderedComponent<LoadView> view = await PutAsync("moor-1@0.5 m");
        Assert.Contains("1 moor-1@0.5 m", Row(view), StringComparison.Ordinal);
        Assert.Equal("train", Assert.Single(_state.Marks).Kind);
        await view.InvokeAsync(() => _state.OnDrop!("1", LayoutWords.Place(_state.Open!.Layout!, "bank-2@0.1 m").Value));
        view.WaitForAssertion(() => Assert.Contains("1 bank-2@0.1 m", Row(view), StringComparison.Ordinal), Patience);
        Assert.Equal("bank-2@0.1 m", _state.Marks[0].Place);
        await view.InvokeAsync(() => _state.OnDrop!("1", null));
        Assert.Equal("bank-2@0.1 m", _state.Marks[0].Place);
        await view.InvokeAsync(() => view.Find("button[aria-label='Take away 1']").Click());
        Assert.Empty(_state.Marks);
    }

    [Fact]
    public async Task A_thicker_bus_that_is_tried_leaves_more_volts_than_a_thin_one_and_the_layout_as_it_is()
    {
        IRenderedComponent<LoadView> view = await PutAsync("moor-1@0.5 m");
        Layout before = _state.Open!.Layout!;
        string built = Row(view);
        string[] wires = [.. view.FindAll("#tried-wire option").Select(option => option.GetAttribute("value")!)];
        await TryAsync(wires[1]);
        view.WaitForAssertion(() => Assert.True(Volts(Row(view)) > Volts(built)), Patience);
        double thick = Volts(Row(view));
        await TryAsync(wires[^1]);
        view.WaitForAssertion(() => Assert.True(Volts(Row(view)) < thick), Patience);
        await TryAsync("");
        view.WaitForAssertion(() => Assert.Equal(built, Row(view)), Patience);
        Assert.Same(before, _state.Open.Layout);

        Task TryAsync(string wire) => view.InvokeAsync(() => view.Find("#tried-wire").Change(wire));
    }

    [Fact]
    public async Task A_place_that_is_none_is_told()
    {
        IRenderedComponent<LoadView> view = Render<LoadView>(with => with.AddCascadingValue(_state));
        await view.InvokeAsync(() => view.Find("#place").Change("nowhere@1 m"));
        await view.InvokeAsync(() => view.Find("#place").Closest("form")!.Submit());
        Assert.Contains("nowhere", view.Find("[role=alert]").TextContent, StringComparison.Ordinal);
        Assert.Empty(_state.Marks);
    }

    [Fact]
    public async Task The_session_table_has_a_row_for_each_district_with_the_figures_of_the_room()
    {
        IRenderedComponent<SessionTable> table = Render<SessionTable>(with => with.AddCascadingValue(_state));
        await table.InvokeAsync(() => table.Find("button").Click());
        table.WaitForAssertion(() => Assert.True(table.FindAll("table, p.notice").Count > 0), Patience);
        Circuits.Sessions.SessionAnswer told = await Services.GetRequiredService<LayoutDesk>().SessionAsync(_state.Open!, new Progress<string>(), Xunit.TestContext.Current.CancellationToken);
        if (told is not Circuits.Sessions.SessionAnswer.Simulated { Report: var report })
        {
            Assert.Equal(Assert.IsType<Circuits.Sessions.SessionAnswer.NothingToRun>(told).Reason, table.Find("p.notice").TextContent);
            return;
        }

        Assert.Equal(report.Districts.Select(district => district.Name), table.FindAll("tbody tr td:first-child").Select(cell => cell.TextContent));
        Assert.All(report.Districts.Zip(table.FindAll("tbody tr")), row =>
            Assert.Contains(Components.Say.Number(row.First.Largest.Amperes, "A"), row.Second.TextContent, StringComparison.Ordinal));
    }

    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        _work.Dispose();
        _folder.Dispose();
        _directory.Delete(recursive: true);
    }

    private static string Row(IRenderedComponent<LoadView> view) => string.Join(' ', view.Find("[aria-live] li").TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static double Volts(string row) => double.Parse(row.Split(": ")[1].Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture);

    private async Task<IRenderedComponent<LoadView>> PutAsync(string place)
    {
        IRenderedComponent<LoadView> view = Render<LoadView>(with => with.AddCascadingValue(_state));
        await view.InvokeAsync(() => view.Find("#place").Change(place));
        await view.InvokeAsync(() => view.Find("#place").Closest("form")!.Submit());
        view.WaitForElement("[aria-live] li", Patience);
        return view;
    }
}
