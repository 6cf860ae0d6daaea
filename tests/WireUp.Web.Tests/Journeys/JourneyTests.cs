using System.Net;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using WireUp.Layouts;
using WireUp.Web.Tests.Support;

namespace WireUp.Web.Tests.Journeys;

[Collection(BrowserTests.Name)]
public sealed partial class JourneyTests(Browser browser)
{
    [Theory]
    [InlineData(1280, 800)]
    [InlineData(360, 740)]
    public async Task From_an_unwired_plan_to_wires_that_are_ticked_off(int width, int height)
    {
        await using Served served = await Served.StartAsync("balloon-loop");
        await using Seen seen = await browser.OpenAsync(width, height);
        IPage page = seen.Page;
        await page.GotoAsync(served.Address.ToString());
        await page.GetByRole(AriaRole.Link, new() { Name = "balloon-loop" }).ClickAsync();
        await page.WaitForSelectorAsync("ol.findings li");
        await seen.DrawnAsync();

        await page.Locator("ol.findings button").First.ClickAsync();
        await page.WaitForSelectorAsync("[data-layer=path] path", new() { State = WaitForSelectorState.Attached });

        await seen.FollowAsync("Wire");
        await page.GetByText("Propose the wiring").ClickAsync();
        await page.WaitForSelectorAsync("text=The plan passes its own checks");
        await page.GetByText("Accept all and write them to the file").ClickAsync();
        await page.WaitForSelectorAsync("text=proposals to the file");
        Layout written = LayoutFile.Read(await File.ReadAllTextAsync(served.PathOf("balloon-loop.layout.yaml"), Cancel), "written").Layout!;
        Assert.NotEmpty(written.Wiring.Feeders);

        await seen.FollowAsync("Load");
        await page.GetByLabel("Place").FillAsync("depot@0.2 m");
        await page.GetByText("Put it there").ClickAsync();
        await page.WaitForSelectorAsync("text=at the wheels");
        await page.GetByLabel("What", new() { Exact = true }).SelectOptionAsync("coin");
        await page.GetByLabel("Place").FillAsync("hill@0.5 m");
        await page.GetByText("Put it there").ClickAsync();
        await page.WaitForSelectorAsync("text=it trips");

        await page.GetByText("Volts along a route").ClickAsync();
        await page.GetByLabel("Route").FillAsync("depot > hill");
        await page.GetByText("Draw it").ClickAsync();
        await page.WaitForSelectorAsync("details .legend svg");

        await seen.FollowAsync("Work sheet");
        await page.Locator("label.wire-row input").First.CheckAsync();
        await page.WaitForSelectorAsync("[data-done='1']");
        Assert.Contains(WireUp.Documents.Schedule.Of(written).Wires[0].Id, await File.ReadAllTextAsync(served.PathOf("balloon-loop.progress.json"), Cancel), StringComparison.Ordinal);
        Assert.Empty(seen.Complaints);
        Assert.Equal(width, await page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
    }

    [Theory]
    [InlineData(1280, 800)]
    [InlineData(360, 740)]
    public async Task The_code_of_a_label_opens_the_line_of_its_wire(int width, int height)
    {
        await using Served served = await Served.StartAsync("slate-branch");
        await using Seen seen = await browser.OpenAsync(width, height);
        Layout layout = LayoutFile.Read(await File.ReadAllTextAsync(served.PathOf("slate-branch.layout.yaml"), Cancel), "x").Layout!;
        string wire = Documents.Schedule.Of(layout).Wires[^1].Id;
        await seen.Page.GotoAsync((layout.Papers with { WorkSheet = $"{served.Address}layouts/slate-branch/sheet" }).LineOf(wire)!);
        ILocator line = seen.Page.Locator("label.wire-row.sought");
        await line.WaitForAsync();
        Assert.Equal(wire, await line.GetAttributeAsync("id"));
        Assert.Equal("true", await line.GetAttributeAsync("aria-current"));
        await seen.Page.WaitForFunctionAsync("() => { const box = document.querySelector('.sought').getBoundingClientRect(); return box.top >= 0 && box.bottom <= innerHeight && document.activeElement.closest('.sought') }");
        Assert.Empty(seen.Complaints);
    }

    [Theory]
    [InlineData(1280, 800)]
    [InlineData(360, 740)]
    public async Task From_a_train_that_stops_to_the_joint_that_is_to_blame(int width, int height)
    {
        await using Served served = await Served.StartAsync("slate-branch");
        await using Seen seen = await browser.OpenAsync(width, height);
        IPage page = seen.Page;
        await seen.GoAsync(served, "slate-branch", "check");
        await seen.FollowAsync("Fault");
        await seen.DrawnAsync();
        await page.Locator(".board summary").ClickAsync();
        await page.GetByLabel("T2", new() { Exact = true }).SelectOptionAsync("diverging");
        await SayAsync("stops");
        await SayAsync("volts", "14.4");
        await SayAsync("volts", "4.7", "0.5");
        await page.WaitForSelectorAsync("ol.readings li:nth-child(3) .quiet");
        await page.WaitForSelectorAsync("ol.suspects li:nth-child(2)");
        await page.WaitForSelectorAsync(".surface .mark", new() { State = WaitForSelectorState.Attached });

        await page.Locator("ul.next button").First.ClickAsync();
        await Assertions.Expect(page.GetByLabel("Meter shows")).ToHaveValueAsync("");
        await Assertions.Expect(page.GetByLabel("What", new() { Exact = true })).ToBeFocusedAsync();
        await page.GetByLabel("What", new() { Exact = true }).SelectOptionAsync("sentence");
        await page.GetByLabel("Sentence").FillAsync("9.6 V from quarry-1.b/left to quarry-2.a/right under 0.5 A at quarry-3@0.5 m");
        await page.GetByText("Add it").ClickAsync();
        ILocator first = page.Locator("ol.suspects li").First;
        await Assertions.Expect(first).ToContainTextAsync("joint quarry-1.b–quarry-2.a, left rail");
        await Assertions.Expect(first).ToContainTextAsync(MostlySure());
        await Assertions.Expect(first).ToContainTextAsync("solder a short jumper");

        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("ol.readings > li")).ToHaveCountAsync(4);
        await seen.FollowAsync("Check");
        await seen.FollowAsync("Fault");
        await Assertions.Expect(page.Locator("ol.readings > li")).ToHaveCountAsync(4);
        await Assertions.Expect(first).ToContainTextAsync(MostlySure());
        await page.GetByText("Mended: write it into the fault log").ClickAsync();
        await page.GetByLabel("What was done").FillAsync("soldered a jumper");
        await page.GetByLabel("On", new() { Exact = true }).FillAsync("2026-03-01");
        await page.GetByText("Write it", new() { Exact = true }).ClickAsync();
        await page.WaitForSelectorAsync("text=Wrote joint quarry-1.b–quarry-2.a, left rail into slate-branch.faults.yaml");
        LoggedFault logged = Assert.Single(FaultLogFile.Read(await File.ReadAllTextAsync(served.PathOf("slate-branch.faults.yaml"), Cancel), "log").Log!.Faults);
        Assert.Equal(("soldered a jumper", new DateOnly(2026, 3, 1), 4), (logged.Cure, logged.Date, logged.Readings.Length));

        Assert.Equal(width, await page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
        Assert.Empty(seen.Complaints);

        async Task SayAsync(string kind, string value = "", string load = "")
        {
            int before = await page.Locator("ol.readings > li").CountAsync();
            await page.GetByLabel("What", new() { Exact = true }).SelectOptionAsync(kind);
            await page.GetByLabel("Place", new() { Exact = true }).FillAsync("quarry-3@0.5 m");
            if (value.Length > 0) await page.GetByLabel("Meter shows").FillAsync(value);
            if (load.Length > 0) await page.GetByLabel("Under a load of").FillAsync(load);
            await page.GetByText("Add it").ClickAsync();
            await Assertions.Expect(page.Locator("ol.readings > li")).ToHaveCountAsync(before + 1);
        }
    }

    [Fact]
    public async Task A_turnout_that_is_touched_is_thrown_and_its_rails_change_and_the_address_remembers_it()
    {
        await using Served served = await Served.StartAsync("home-yard");
        await using Seen seen = await browser.OpenAsync();
        await seen.GoAsync(served, "home-yard", "check");
        await seen.DrawnAsync();
        const string Rails = "[...document.querySelectorAll('g[data-layer=rails] path')].map(rail => rail.getAttribute('d') + rail.getAttribute('stroke')).join()";
        string before = await seen.Page.EvaluateAsync<string>(Rails);
        await seen.TouchAsync("T1");
        await seen.RemembersAsync("?set=T1.diverging");
        await seen.Page.WaitForFunctionAsync($"before => {Rails} !== before", before);

        await seen.Page.ReloadAsync();
        await seen.Page.GetByRole(AriaRole.Button, new() { Name = "Reset turnouts" }).ClickAsync();
        await seen.RemembersAsync("/check");
        await seen.Page.WaitForFunctionAsync($"before => {Rails} === before", before);
        Assert.Empty(seen.Complaints);
    }

    [Fact]
    public async Task The_wiring_book_of_a_plan_is_downloaded_and_one_of_no_layout_is_not_found()
    {
        await using Served served = await Served.StartAsync("balloon-loop");
        await using Seen seen = await browser.OpenAsync();
        await seen.GoAsync(served, "balloon-loop", "wire");
        await seen.Page.GetByText("Propose the wiring").ClickAsync();
        await seen.Page.WaitForSelectorAsync("text=The plan passes its own checks");
        IDownload book = await seen.Page.RunAndWaitForDownloadAsync(() => seen.Page.GetByRole(AriaRole.Link, new() { Name = "The wiring book" }).ClickAsync());
        Assert.Equal("balloon-loop-wiring-book.pdf", book.SuggestedFilename);
        byte[] bytes = await File.ReadAllBytesAsync(await book.PathAsync(), Cancel);
        Assert.Equal("%PDF-"u8.ToArray(), bytes[..5]);
        Assert.True(bytes.Length > 50_000, $"{bytes.Length} bytes");
        using HttpClient client = new();
        foreach (string file in new[] { "/books/nowhere-wiring-book.pdf", "/books/balloon-loop.layout.yaml", "/books/-wiring-book.pdf" })
        {
            using HttpResponseMessage answer = await client.GetAsync(new Uri(served.Address, file), Cancel);
            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        }

        Assert.Empty(seen.Complaints);
    }

    [Fact]
    public async Task One_proposal_that_is_accepted_brings_what_it_cannot_be_without_and_nothing_else()
    {
        await using Served served = await Served.StartAsync("balloon-loop");
        await using Seen seen = await browser.OpenAsync();
        await seen.GoAsync(served, "balloon-loop", "wire");
        await seen.Page.GetByText("Propose the wiring").ClickAsync();
        await seen.Page.GetByText("Feeders: 8").ClickAsync();
        await seen.Page.GetByRole(AriaRole.Button, new() { Name = "Accept f3", Exact = true }).ClickAsync();
        await seen.Page.WaitForSelectorAsync("text=Wrote f3 and what it needs");
        Layout written = LayoutFile.Read(await File.ReadAllTextAsync(served.PathOf("balloon-loop.layout.yaml"), Cancel), "written").Layout!;
        Assert.Equal("f3", Assert.Single(written.Wiring.Feeders).Name);
        Assert.Equal("d1", Assert.Single(written.Wiring.Districts).Name);
        Assert.Single(written.Wiring.Boosters);
        Assert.Empty(written.Wiring.Gaps);
        Assert.Empty(seen.Complaints);
    }

    [Fact]
    public async Task Text_with_mistakes_is_saved_and_told_and_another_programs_edit_is_never_written_over()
    {
        await using Served served = await Served.StartAsync("balloon-loop");
        await using Seen seen = await browser.OpenAsync();
        string file = served.PathOf("balloon-loop.layout.yaml");
        await seen.GoAsync(served, "balloon-loop", "text");
        ILocator area = seen.Page.Locator("textarea");
        await Assertions.Expect(area).Not.ToHaveValueAsync("");
        string wrong = (await area.InputValueAsync()).Replace("scale: HO", "scale: HOO", StringComparison.Ordinal);
        await area.FillAsync(wrong);
        await seen.Page.WaitForSelectorAsync("text=1 problem in the text");
        await seen.Page.GetByText("Save", new() { Exact = true }).ClickAsync();
        await seen.Page.WaitForSelectorAsync("text=Saved, with problems to mend.");
        Assert.Equal(wrong, await File.ReadAllTextAsync(file, Cancel));

        string mine = wrong.Replace("scale: HOO", "scale: N", StringComparison.Ordinal), theirs = wrong.Replace("scale: HOO", "scale: TT", StringComparison.Ordinal);
        await area.FillAsync(mine);
        await File.WriteAllTextAsync(file, theirs, Cancel);
        await seen.Page.WaitForSelectorAsync("text=Your text is still here");
        await seen.Page.GetByText("Save", new() { Exact = true }).ClickAsync();
        await seen.Page.WaitForSelectorAsync("text=Not saved: you and somebody else changed the same: scale.");
        Assert.Equal(theirs, await File.ReadAllTextAsync(file, Cancel));
        Assert.Equal(mine, await area.InputValueAsync());
        await seen.Page.GetByText("Keep mine").ClickAsync();
        await seen.Page.GetByText("Save", new() { Exact = true }).ClickAsync();
        await seen.Page.WaitForSelectorAsync("text=Saved.");
        Assert.Equal(mine, await File.ReadAllTextAsync(file, Cancel));

        await area.FillAsync(wrong);
        await seen.Page.GetByText("Save", new() { Exact = true }).ClickAsync();
        await seen.Page.WaitForSelectorAsync("text=Saved, with problems to mend.");
        await seen.FollowAsync("Check");
        await seen.Page.WaitForSelectorAsync("text=Nothing is lost");
        Assert.Empty(seen.Complaints);
    }

    [Fact]
    public async Task Two_people_who_change_different_pieces_both_keep_what_they_typed()
    {
        await using Served served = await Served.StartAsync("home-yard");
        await using Seen one = await browser.OpenAsync(), other = await browser.OpenAsync();
        foreach (Seen each in new[] { one, other })
        {
            await each.GoAsync(served, "home-yard", "text");
            await Assertions.Expect(each.Page.Locator("textarea")).Not.ToHaveValueAsync("");
        }

        string seen = await one.Page.Locator("textarea").InputValueAsync();
        await one.Page.Locator("textarea").FillAsync(seen.Replace("main-1: { length: 1800 }", "main-1: { length: 1810 }   # measured", StringComparison.Ordinal));
        await other.Page.Locator("textarea").FillAsync(seen.Replace("yard-4: { length: 1100 }", "yard-4: { length: 1120 }", StringComparison.Ordinal));
        await one.Page.GetByText("Save", new() { Exact = true }).ClickAsync();
        await one.Page.WaitForSelectorAsync("text=Saved.");
        await other.Page.WaitForSelectorAsync("text=Your text is still here");
        await other.Page.GetByText("Save", new() { Exact = true }).ClickAsync();
        await other.Page.WaitForSelectorAsync("text=theirs is in it too: track: main-1.");
        string both = seen.Replace("main-1: { length: 1800 }", "main-1: { length: 1810 }   # measured", StringComparison.Ordinal)
            .Replace("yard-4: { length: 1100 }", "yard-4: { length: 1120 }", StringComparison.Ordinal);
        Assert.Equal(both, await File.ReadAllTextAsync(served.PathOf("home-yard.layout.yaml"), Cancel));
        await Assertions.Expect(other.Page.Locator("textarea")).ToHaveValueAsync(both);
        await Assertions.Expect(one.Page.Locator("textarea")).ToHaveValueAsync(both);
        Assert.Empty(one.Complaints.Concat(other.Complaints));
    }

    /// <summary>The likeliest suspect with 90 % or more.</summary>
    [GeneratedRegex(@"A\s+9\d[. ]", RegexOptions.None, matchTimeoutMilliseconds: 1000)]
    private static partial Regex MostlySure();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;
}
